import { createContext, useContext } from "react";
import type { Bpm } from "../../engine/units/index.ts";

/** What the files made on a page are of: their names and the line under a picture say it. */
export interface Origin {
  /** The name of a style, a groove, a fill. */
  readonly of: string;
  readonly day: Date;
  /** `null` where no tempo could be told. */
  readonly tempoBpm: Bpm | null;
}

const Context = createContext<Origin | null>(null);

/** Round a part of a page from which files can be taken. */
export const TakenFrom = Context.Provider;

/** `null` outside {@link TakenFrom}: there is nothing to name a file by, so no file is offered. */
export function useOrigin(): Origin | null {
  return useContext(Context);
}
