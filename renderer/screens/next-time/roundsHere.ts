import type { RoundKind } from "../../../engine/session/index.ts";
import { BUILT_ROUNDS } from "../../app/screenNames.ts";

/** Rounds that can be played in this version of the program: nothing is dealt into another one. */
export const ROUNDS_HERE: readonly RoundKind[] = BUILT_ROUNDS.map(({ id }) => id);
