import "@fontsource/atkinson-hyperlegible/400.css";
import "@fontsource/atkinson-hyperlegible/700.css";
import "@fontsource-variable/source-serif-4/wght.css";
import "./theme/tokens.css";
import "./theme/base.css";
// It comes before the program, so that its files are on their way meanwhile.
import "./app/firstFiles.ts";
import { routeOf } from "./app/screenNames.ts";
import { start } from "./app/start.tsx";

start(routeOf(window.location.hash));
