import { createContext, type ReactNode, use } from "react";
import { useProgram } from "./ProgramContext.tsx";
import type { Studio } from "./studio.ts";

const Context = createContext<Studio | null>(null);

/** Waits for the studio, and hands it to what is inside. */
export function WithStudio({ children }: { readonly children: ReactNode }) {
  const { studio } = useProgram();
  return <Context value={studio.get() ?? use(studio.load())}>{children}</Context>;
}

/** What is kept of the studio, and the book its lessons are written in. */
export function useStudio(): Studio {
  const studio = use(Context);
  if (!studio)
    throw new Error("This part of a screen was drawn outside the studio. Put it inside WithStudio.");
  return studio;
}
