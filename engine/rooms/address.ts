/** Where a room is, as people write it. */

/** The port of a room where none is said. */
export const ROOM_PORT = 4177;

const ADDRESS =
  /^(?:(?<way>wss?|mqtts?):\/\/)?(?<host>[A-Za-z0-9.-]+|\[[0-9A-Fa-f:]+\])(?::(?<port>\d{1,5}))?(?<path>\/[\w./~-]*)?$/;

export type ReadAddress =
  | { readonly kind: "address"; readonly url: string; readonly isSecret: boolean }
  | { readonly kind: "trouble"; readonly sentence: string };

/**
 * Reads an address as it was typed. Without a way it is a room of this program in the house; a page can go by `ws` and
 * `wss` only.
 *
 * @example
 * readAddress("192.168.1.20:4177").url // => "ws://192.168.1.20:4177"
 * readAddress("wss://broker.example/mqtt").url // => "wss://broker.example/mqtt"
 */
export function readAddress(typed: string): ReadAddress {
  const { way, host, port, path } = ADDRESS.exec(typed.trim())?.groups ?? {};
  if (host === undefined || Number(port ?? 0) > 65_535)
    return {
      kind: "trouble",
      sentence: `"${typed.trim()}" is no address of a room. It looks like 192.168.1.20:${ROOM_PORT}, or wss://broker.example/mqtt.`,
    };
  const usual = way === undefined ? `:${ROOM_PORT}` : "";
  const url = `${way ?? "ws"}://${host}${port === undefined ? usual : `:${port}`}${path ?? ""}`;
  return { kind: "address", url, isSecret: way === "wss" || way === "mqtts" };
}
