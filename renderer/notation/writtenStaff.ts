import { type Groove, writeStaff } from "../../engine/score/index.ts";
import type { StaffToEngrave } from "../../engraving/index.ts";

/** A groove as the one staff of its picture, between repeat signs; its tempo is told beside it, in words. */
export function writtenStaff({ metre, feel, bars, notes }: Groove): readonly StaffToEngrave[] {
  return [{ score: writeStaff({ metre, feel, bars, notes }, { repeated: true }) }];
}
