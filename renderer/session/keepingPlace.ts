/** Where choices are kept on this computer: `localStorage` in the browser. */
export type KeepingPlace = Pick<Storage, "getItem" | "setItem">;

/** The name something of a MIDI input is kept under; of no input, the plain one. */
export function keptFor(name: string, input: string | undefined): string {
  return input === undefined ? name : `${name}/${input}`;
}
