import type { Session } from "electron";
import { isOwn } from "./origin.ts";

/** Addresses that lead nowhere outside: what a page makes itself, and Chromium's own tools for developers. */
const WITHIN = /^(blob|data|devtools|chrome-extension):/;

/** True for what is on this computer; the program fetches nothing else. */
export function staysHere(address: string): boolean {
  return isOwn(address) || WITHIN.test(address);
}

/** The one room that a page may reach: the network stays shut for everything else. */
export class RoomReach {
  #origin: string | undefined;

  /** The page may reach the room at this address from now on, and no other. */
  allow(address: string): void {
    this.#origin = originOf(address);
  }

  leadsThere(address: string): boolean {
    return this.#origin !== undefined && originOf(address) === this.#origin;
  }
}

/** Of a WebSocket; `undefined` for all else. */
function originOf(address: string): string | undefined {
  if (!URL.canParse(address)) return undefined;
  const { protocol, host } = new URL(address);
  return protocol === "ws:" || protocol === "wss:" ? `${protocol}//${host}` : undefined;
}

/**
 * Shuts the network for all pages, whatever asks, but for the room that was joined: the content security policy says so to the page, this to Chromium
 * below it.
 */
export function shutNetwork(
  session: Pick<Session, "webRequest" | "setSpellCheckerEnabled">,
  reach: RoomReach,
): void {
  session.webRequest.onBeforeRequest(({ url }, answer) =>
    answer({ cancel: !staysHere(url) && !reach.leadsThere(url) }),
  );
  session.setSpellCheckerEnabled(false);
}
