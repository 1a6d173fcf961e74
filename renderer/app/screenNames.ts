/** The rounds that are built, in the order they are offered: the one list of them. Names are those of the product. */
export const BUILT_ROUNDS = [
  { id: "call-a-style", name: "Call a Style" },
  { id: "spotting", name: "Spotting" },
  { id: "say-and-strike", name: "Say & Strike" },
  { id: "back-turned", name: "Back Turned" },
  { id: "card-table", name: "Card Table" },
  { id: "wall-chart", name: "Wall Chart" },
  { id: "trading", name: "Trading" },
] as const;
export type BuiltRound = (typeof BUILT_ROUNDS)[number]["id"];

/** The screens there are, in the order of the spine. */
export const SCREENS = [
  { id: "desk", name: "Desk" },
  ...BUILT_ROUNDS,
  { id: "replay", name: "Replay" },
  { id: "next-time", name: "Next Time" },
  { id: "shelf", name: "Shelf" },
  { id: "roster", name: "Roster" },
  { id: "kit", name: "Kit" },
  { id: "studio", name: "Studio" },
] as const;

export type ScreenId = (typeof SCREENS)[number]["id"];
export type Route = ScreenId | "wall";

export const FIRST_SCREEN: ScreenId = "desk";

/**
 * The route a hash names; anything else is the first screen.
 *
 * @example
 * routeOf("#/call-a-style") // => "call-a-style"
 * routeOf("#/roster/3f2a") // => "roster"
 */
export function routeOf(hash: string): Route {
  const [name] = hash.replace(/^#\/?/, "").split("/");
  if (name === "wall") return name;
  return SCREENS.find(({ id }) => id === name)?.id ?? FIRST_SCREEN;
}
