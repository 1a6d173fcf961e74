import { useSyncExternalStore } from "react";

/** The screens there are, in the order of the spine; names are those of the product. */
export const SCREENS = [
  { id: "kit", name: "Kit" },
  { id: "call-a-style", name: "Call a Style" },
] as const;

export type ScreenId = (typeof SCREENS)[number]["id"];
export type Route = ScreenId | "wall";

export const FIRST_SCREEN: ScreenId = "kit";

/**
 * The route a hash names; anything else is the first screen.
 *
 * @example
 * routeOf("#/call-a-style") // => "call-a-style"
 */
export function routeOf(hash: string): Route {
  const name = hash.replace(/^#\/?/, "");
  if (name === "wall") return name;
  return SCREENS.find(({ id }) => id === name)?.id ?? FIRST_SCREEN;
}

export function hrefOf(route: Route): string {
  return `#/${route}`;
}

function subscribe(listener: () => void): () => void {
  window.addEventListener("hashchange", listener);
  return () => window.removeEventListener("hashchange", listener);
}

export function useRoute(): Route {
  return useSyncExternalStore(subscribe, () => routeOf(window.location.hash));
}
