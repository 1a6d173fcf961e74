import type { Session } from "electron";
import { isOwn } from "./origin.ts";

/** Addresses that lead nowhere outside: what a page makes itself, and Chromium's own tools for developers. */
const WITHIN = /^(blob|data|devtools|chrome-extension):/;

/** True for what is on this computer; the program fetches nothing else. */
export function staysHere(address: string): boolean {
  return isOwn(address) || WITHIN.test(address);
}

/**
 * Shuts the network for all pages, whatever asks: the content security policy says so to the page, this to Chromium
 * below it.
 */
export function shutNetwork(session: Pick<Session, "webRequest" | "setSpellCheckerEnabled">): void {
  session.webRequest.onBeforeRequest(({ url }, answer) => answer({ cancel: !staysHere(url) }));
  session.setSpellCheckerEnabled(false);
}
