/**
 * Keeps all files of a build on this computer, so that the page opens and plays with the network off. Files are
 * answered from what is kept first; a new build is fetched beside the old one and takes over when the user says so.
 */
import { type BuildToKeep, CACHE_PREFIX, isNamedByContent, namesToDrop, type TakeOver } from "./kept.ts";

/** The files of this build, with its version: written in its place when the pages are built (scripts/pages). */
declare const FILES_OF_THIS_BUILD: BuildToKeep;

const TAKE_OVER: TakeOver = "take over";

// TypeScript's types of a page do not have those of a service worker (W3C, Service Workers); these are what is used.
interface LastingEvent extends Event {
  readonly waitUntil: (work: Promise<unknown>) => void;
}
interface FetchEvent extends LastingEvent {
  readonly request: Request;
  readonly respondWith: (answer: Promise<Response>) => void;
}
interface ServiceWorkerScope {
  readonly location: Location;
  readonly skipWaiting: () => Promise<void>;
  readonly clients: { readonly claim: () => Promise<void> };
  addEventListener(type: "install" | "activate", listener: (event: LastingEvent) => void): void;
  addEventListener(type: "fetch", listener: (event: FetchEvent) => void): void;
  addEventListener(type: "message", listener: (event: MessageEvent<unknown>) => void): void;
}

const scope = globalThis as unknown as ServiceWorkerScope;
const build = FILES_OF_THIS_BUILD;
const cacheName = CACHE_PREFIX + build.version;

scope.addEventListener("install", (event) => event.waitUntil(keep(build)));
scope.addEventListener("activate", (event) => event.waitUntil(dropOld().then(() => scope.clients.claim())));
scope.addEventListener("message", ({ data }) => {
  if (data === TAKE_OVER) void scope.skipWaiting();
});
scope.addEventListener("fetch", (event) => {
  const { request } = event;
  const isOurs = new URL(request.url).origin === scope.location.origin;
  if (request.method === "GET" && isOurs) event.respondWith(answer(request));
});

/** Fetches what is not kept yet; if one file fails, nothing of this build is used. */
async function keep({ files }: BuildToKeep): Promise<void> {
  const cache = await caches.open(cacheName);
  await Promise.all(
    files.map(async (file) => {
      // The browser's own cache has most of these, since the pages were fetched before.
      if (isNamedByContent(file)) {
        const known = await caches.match(file);
        return known ? cache.put(file, known) : cache.add(file);
      }
      // Past the browser's own cache: a file whose name says nothing of its content may be an old one there.
      await cache.add(new Request(file, { cache: "reload" }));
    }),
  );
}

async function dropOld(): Promise<void> {
  const dropped = namesToDrop(await caches.keys(), cacheName);
  await Promise.all(dropped.map((name) => caches.delete(name)));
}

async function answer(request: Request): Promise<Response> {
  const cache = await caches.open(cacheName);
  const own = await cache.match(request.mode === "navigate" ? "./" : request, { ignoreSearch: true });
  if (own) return own;
  // A page of the build before this one may still be open and ask for a file of its own.
  return (await caches.match(request)) ?? fetch(request);
}
