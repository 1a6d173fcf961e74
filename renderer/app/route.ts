import { useMemo, useSyncExternalStore } from "react";
import { type Route, routeOf, SCREENS, type ScreenId } from "./screenNames.ts";

export * from "./screenNames.ts";

/** As it stands in the spine. */
export function nameOf(screen: ScreenId): string {
  return SCREENS.find(({ id }) => id === screen)?.name ?? screen;
}

/**
 * What a hash names within its screen: a student, a lesson and a moment of it. Empty where it names the screen alone.
 *
 * @example
 * restOf("#/roster/3f2a") // => ["3f2a"]
 */
export function restOf(hash: string): readonly string[] {
  return hash.replace(/^#\/?/, "").split("/").slice(1).map(decoded);
}

/** A hash typed by hand may not be well formed: then it stands for itself. */
function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch (error) {
    if (error instanceof URIError) return part;
    throw error;
  }
}

/** The hash of a screen, or of something within it. */
export function hrefOf(route: Route, ...rest: readonly string[]): string {
  return ["#", route, ...rest.map(encodeURIComponent)].join("/");
}

function subscribe(listener: () => void): () => void {
  window.addEventListener("hashchange", listener);
  return () => window.removeEventListener("hashchange", listener);
}

/** What is named within the screen: see {@link restOf}. */
export function useRest(): readonly string[] {
  const hash = useSyncExternalStore(subscribe, () => window.location.hash);
  return useMemo(() => restOf(hash), [hash]);
}

export function useRoute(): Route {
  return useSyncExternalStore(subscribe, () => routeOf(window.location.hash));
}
