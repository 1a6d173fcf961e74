import type { BrowserWindow, Dialog, OpenDialogOptions, SaveDialogOptions } from "electron";

/** The system's dialogs for files, shown over the book's window. */
export interface FileDialogs {
  /** The paths that were chosen; undefined if the dialog was closed. */
  readonly open: (options: OpenDialogOptions) => Promise<readonly string[] | undefined>;
  readonly save: (options: SaveDialogOptions) => Promise<string | undefined>;
}

export function dialogsOver(
  window: BrowserWindow,
  dialog: Pick<Dialog, "showOpenDialog" | "showSaveDialog">,
): FileDialogs {
  return {
    open: async (options) => {
      const { canceled, filePaths } = await dialog.showOpenDialog(window, options);
      return canceled ? undefined : filePaths;
    },
    save: async (options) => {
      const { canceled, filePath } = await dialog.showSaveDialog(window, options);
      return canceled ? undefined : filePath;
    },
  };
}
