/**
 * The page's side of working without a network: starts the service worker, and hears of a new version.
 */
import { Store } from "../session/store.ts";
import type { TakeOver } from "./kept.ts";

export type OfflineState =
  /** Where no service worker is needed (the desktop shell has its files) or none is to be had. */
  | { readonly state: "not offered" }
  | { readonly state: "getting ready" }
  /** All files are on this computer. */
  | { readonly state: "ready" }
  | { readonly state: "new version"; readonly waiting: ServiceWorker | null }
  | { readonly state: "failed"; readonly reason: string };

const TAKE_OVER: TakeOver = "take over";
/** A page left open for days asks for a new version this often. Our choice. */
const ASK_EVERY_MS = 60 * 60 * 1000;

export class Offline extends Store<OfflineState, OfflineState> {
  #isLoading = false;

  constructor() {
    super({ state: "not offered" }, (_, next) => next);
  }

  /** Starts the service worker of this build. Does nothing where it has no place. */
  async start(): Promise<void> {
    if (!isOffered(window.location.protocol, import.meta.env.PROD, "serviceWorker" in navigator)) return;
    const { serviceWorker } = navigator;
    let wasControlled = serviceWorker.controller !== null;
    serviceWorker.addEventListener("controllerchange", () => {
      if (this.#isLoading) window.location.reload();
      // Another window has let the new version take over; this one still shows the old.
      else if (wasControlled) this.dispatch({ state: "new version", waiting: null });
      wasControlled = true;
    });
    this.dispatch({ state: "getting ready" });
    try {
      this.#follow(await serviceWorker.register("./service-worker.js", { updateViaCache: "none" }));
      await serviceWorker.ready;
      if (this.get().state === "getting ready") this.dispatch({ state: "ready" });
    } catch (error) {
      this.dispatch({ state: "failed", reason: String(error) });
    }
  }

  /** Lets the new version take over, and shows it. */
  load(): void {
    const now = this.get();
    if (now.state !== "new version") return;
    this.#isLoading = true;
    if (now.waiting?.state === "installed") now.waiting.postMessage(TAKE_OVER);
    else window.location.reload();
  }

  #follow(registration: ServiceWorkerRegistration): void {
    const tellOf = (worker: ServiceWorker): void => {
      // The very first version replaces nothing.
      if (navigator.serviceWorker.controller) this.dispatch({ state: "new version", waiting: worker });
    };
    if (registration.waiting) tellOf(registration.waiting);
    registration.addEventListener("updatefound", () => {
      const coming = registration.installing;
      coming?.addEventListener("statechange", () => {
        if (coming.state === "installed") tellOf(coming);
      });
    });
    setInterval(() => {
      // With the network off there is nothing to be had, which is the case this all is for.
      registration.update().catch(() => undefined);
    }, ASK_EVERY_MS);
  }
}

/**
 * Whether a page has files to keep: only a built one that came over http. The desktop shell has its files under a
 * scheme of its own and needs no network; a page from a file may not have a service worker.
 */
export function isOffered(protocol: string, isBuilt: boolean, hasServiceWorkers: boolean): boolean {
  return isBuilt && hasServiceWorkers && (protocol === "http:" || protocol === "https:");
}
