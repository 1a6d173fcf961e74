/** Files as they were chosen or dropped: those of folders are found, each with its path. */

export interface ChosenFile {
  /** Name, with the folders above it as they were handed over. */
  readonly path: string;
  readonly file: () => Promise<File>;
}

export interface Chosen {
  readonly files: readonly ChosenFile[];
  /** Files of folders that are no MIDI files by their name. */
  readonly passedOver: number;
}

const MIDI_NAME = /\.(mid|midi|smf)$/i;

/** What a file dialogue gave: single files are taken as they are, those of a folder by their name. */
export function fromDialogue(files: readonly File[]): Chosen {
  return sorted(
    files.map((file) => ({
      path: file.webkitRelativePath === "" ? file.name : file.webkitRelativePath,
      file: () => Promise.resolve(file),
      isOfFolder: file.webkitRelativePath !== "",
    })),
  );
}

/** What was dropped, folders with all that is in them. Call it in the drop itself: later nothing is there any more. */
export async function fromDrop(items: Iterable<DataTransferItem>): Promise<Chosen> {
  const entries = [...items].map((item) => item.webkitGetAsEntry() ?? item.getAsFile());
  const found: Found[] = [];
  for (const entry of entries) {
    if (entry instanceof File) found.push({ path: entry.name, file: async () => entry, isOfFolder: false });
    else if (entry) await walk(entry, found, false);
  }
  return sorted(found);
}

interface Found extends ChosenFile {
  readonly isOfFolder: boolean;
}

async function walk(entry: FileSystemEntry, found: Found[], isOfFolder: boolean): Promise<void> {
  if (isFile(entry)) {
    const file = () => new Promise<File>((done, failed) => entry.file(done, failed));
    found.push({ path: entry.fullPath.replace(/^\//, ""), file, isOfFolder });
  } else if (isFolder(entry)) {
    for (const child of await childrenOf(entry)) await walk(child, found, true);
  }
}

function isFile(entry: FileSystemEntry): entry is FileSystemFileEntry {
  return entry.isFile;
}

function isFolder(entry: FileSystemEntry): entry is FileSystemDirectoryEntry {
  return entry.isDirectory;
}

/** A folder gives its entries in portions, the last of which is empty. */
async function childrenOf(folder: FileSystemDirectoryEntry): Promise<readonly FileSystemEntry[]> {
  const reader = folder.createReader();
  const children: FileSystemEntry[] = [];
  for (;;) {
    const some = await new Promise<FileSystemEntry[]>((done, failed) => reader.readEntries(done, failed));
    if (some.length === 0) return children;
    children.push(...some);
  }
}

function sorted(found: readonly Found[]): Chosen {
  const files = found.filter(({ path, isOfFolder }) => !isOfFolder || MIDI_NAME.test(path));
  const byPath = [...files].sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0));
  return { files: byPath, passedOver: found.length - files.length };
}
