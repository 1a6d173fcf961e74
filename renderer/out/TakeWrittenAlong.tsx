/**
 * What can be taken along of written music, of the Shelf or of the catalogue: files, pictures, a page to print. O opens
 * the list, P the page.
 */
import { useState } from "react";
import { styleById, under, type Written } from "../../engine/catalogue/index.ts";
import { OutMenu } from "./OutMenu.tsx";
import styles from "./out.module.css";
import { PrintPages } from "./print/PrintPages.tsx";
import { SHEET_NAMES, type Sheet } from "./print/sheet.ts";
import { SavingTold } from "./SavingTold.tsx";
import { useOutKey } from "./useOutKey.ts";
import { useSaving } from "./useSaving.ts";
import { writtenItems } from "./writtenItems.ts";

export interface TakeWrittenAlongProps {
  readonly written: Written;
  /** As it is called on the page, which may be newer than what the music itself says. */
  readonly name: string;
  /** The style it is of, where it is known: what makes that itself is said on the page. */
  readonly styleId?: string | undefined;
}

export function TakeWrittenAlong({ written: music, name, styleId }: TakeWrittenAlongProps) {
  const { saving, save } = useSaving();
  const [isOpen, setIsOpen] = useState(false);
  const [sheet, setSheet] = useState<Sheet | null>(null);
  const written = under(music, { id: music.music.id, name });
  const page = sheetOfWritten(written, styleId);
  useOutKey("KeyO", () => setIsOpen(true));
  useOutKey("KeyP", () => setSheet(page));
  // The day is that of the file, made when it is asked for.
  const origin = { of: name, day: new Date(), tempoBpm: null };
  return (
    <div className={styles.along}>
      <OutMenu
        label="Take it along"
        weight="plain"
        sections={[
          {
            heading: "As a file",
            items: writtenItems(written, origin, (make) => () => void save(make)),
          },
          {
            heading: "On paper",
            items: [{ id: "page", name: SHEET_NAMES[page.kind], keyCap: "P", act: () => setSheet(page) }],
          },
        ]}
        isOpen={isOpen}
        onOpenChange={setIsOpen}
      />
      <kbd>O</kbd>
      <SavingTold saving={saving} />
      <PrintPages sheet={sheet} onClose={() => setSheet(null)} />
    </div>
  );
}

function sheetOfWritten(written: Written, styleId: string | undefined): Sheet {
  switch (written.kind) {
    case "groove": {
      const itself = styleId === undefined ? undefined : styleById(styleId)?.itself;
      return { kind: "groove", groove: written.music, ...(itself === undefined ? {} : { itself }) };
    }
    case "fill":
      return { kind: "fill", fill: written.music };
    case "phrase":
      return { kind: "phrase", phrase: written.music };
    case "part":
      return { kind: "part", part: written.music };
  }
}
