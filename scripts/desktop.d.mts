/** The shell's program, or why it cannot be opened. */
export type Desktop =
  | { readonly path: string; readonly missing?: never }
  | { readonly missing: string; readonly path?: never };

/** Looks for the shell in `folder`, where the electron package is; the rest describes the computer. */
export declare function findDesktop(here: {
  readonly folder: string;
  readonly platform: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly userId: number | undefined;
}): Desktop;
