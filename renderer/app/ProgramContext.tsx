import { createContext, useContext } from "react";
import type { Program } from "./program.ts";

const Context = createContext<Program | null>(null);

export const ProgramProvider = Context.Provider;

/** The parts of the running program. */
export function useProgram(): Program {
  const program = useContext(Context);
  if (!program)
    throw new Error("This part of a screen was drawn outside the program. Put it inside ProgramProvider.");
  return program;
}
