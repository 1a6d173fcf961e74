/** The drum part of a tune on paper: section by section, over as many pages as it takes. */
import { type Part, unfolded } from "../../../engine/score/index.ts";
import { SheetTop } from "./SheetParts.tsx";
import { StaffPages } from "./StaffPages.tsx";
import type { SheetHead } from "./sheet.ts";
import { linesOfPart } from "./staffLines.ts";

export interface PartSheetProps {
  readonly part: Part;
  readonly head: SheetHead;
}

export function PartSheet({ part, head }: PartSheetProps) {
  return (
    <StaffPages
      of={part.name}
      lines={linesOfPart(part)}
      top={
        <SheetTop head={head} kind="Drum part" title={part.name}>
          {partWords(part)}
        </SheetTop>
      }
    />
  );
}

/** "2 sections, 24 bars in all". */
function partWords(part: Part): string {
  const bars = unfolded(part).reduce((sum, stretch) => sum + stretch.bars, 0);
  const sections = part.sections.length === 1 ? "1 section" : `${part.sections.length} sections`;
  return `${sections}, ${bars === 1 ? "1 bar" : `${bars} bars`} in all`;
}
