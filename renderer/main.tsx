import "@fontsource/atkinson-hyperlegible/400.css";
import "@fontsource/atkinson-hyperlegible/700.css";
import "@fontsource-variable/source-serif-4/wght.css";
import "./theme/tokens.css";
import "./theme/base.css";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { App } from "./app/App.tsx";
import { startProgram } from "./app/program.ts";
import { routeOf } from "./app/route.ts";

const place = document.getElementById("root");
if (!place) throw new Error("The page has no element called root to draw into. Restore renderer/index.html.");
const program = routeOf(window.location.hash) === "wall" ? null : startProgram(window.localStorage);
createRoot(place).render(
  <StrictMode>
    <App program={program} />
  </StrictMode>,
);
