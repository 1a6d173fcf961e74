/** Begins to fetch what the page shown first waits for, before the program itself is set up: imported before it. */
import { filesOf } from "./pageFiles.ts";
import { routeOf } from "./screenNames.ts";

const route = routeOf(window.location.hash);
// What cannot be fetched is told by the page that wants it.
if (route !== "wall") void Promise.allSettled(filesOf(route).map((fetch) => fetch()));
