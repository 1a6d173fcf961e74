/**
 * The fuses of the packed program: switches in Electron's binary that are set once, before it is signed (Electron's
 * documentation, "Electron Fuses"). Names are those of electron-builder.
 */
export const fuses = {
  /** The program is no Node to be handed someone else's script. */
  runAsNode: false,
  enableNodeOptionsEnvironmentVariable: false,
  enableNodeCliInspectArguments: false,
  /** There are no cookies; were there ever, they would lie encrypted. */
  enableCookieEncryption: true,
  /** The archive of the program is checked as it is read (macOS and Windows; Linux has no such check yet). */
  enableEmbeddedAsarIntegrityValidation: true,
  /** And nothing else is run in its place. */
  onlyLoadAppFromAsar: true,
  /** Pages come over app://, so file:// needs no more than a browser gives it. */
  grantFileProtocolExtraPrivileges: false,
  /** There is one snapshot of V8 for all processes, as Electron ships it. */
  loadBrowserProcessSpecificV8Snapshot: false,
};
