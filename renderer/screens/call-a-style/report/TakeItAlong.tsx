/** What can be taken along from a report: the take as files, the groove as files, pages to print. O opens the list. */
import { useState } from "react";
import { STYLES } from "../../../../engine/catalogue/index.ts";
import type { Hit } from "../../../../engine/kit/index.ts";
import type { Judgement } from "../../../../engine/rounds/index.ts";
import type { Groove } from "../../../../engine/score/index.ts";
import { type OutItem, OutMenu, type OutSection } from "../../../out/OutMenu.tsx";
import outStyles from "../../../out/out.module.css";
import { usePictureKey } from "../../../out/picture/usePictureKey.ts";
import { PrintPages } from "../../../out/print/PrintPages.tsx";
import type { Sheet } from "../../../out/print/sheet.ts";
import { SavingTold } from "../../../out/SavingTold.tsx";
import type { Origin } from "../../../out/TakenFrom.ts";
import { useOutKey } from "../../../out/useOutKey.ts";
import { useSaving } from "../../../out/useSaving.ts";
import { type Saves, writtenItems } from "../../../out/writtenItems.ts";
import { isAnother } from "./headingWords.ts";
import { isComparable } from "./leanFigure.ts";
import { placeMeans } from "./placeMeans.ts";

export interface TakeItAlongProps {
  readonly judgement: Judgement;
  readonly hits: readonly Hit[];
  readonly origin: Origin;
  readonly calledName: string | undefined;
}

// The writers of files come with the first file that is taken along.
const files = () => import("./takeFiles.ts");

export function TakeItAlong(props: TakeItAlongProps) {
  const { saving, save } = useSaving();
  const [isOpen, setIsOpen] = useState(false);
  const [sheet, setSheet] = useState<Sheet | null>(null);
  const pages = pagesOf(props);
  useOutKey("KeyO", () => setIsOpen(true));
  useOutKey("KeyP", () => setSheet(pages[0]?.sheet ?? null));
  usePictureKey();
  return (
    <div className={outStyles.along}>
      <OutMenu
        label="Take it along"
        weight="plain"
        sections={[
          ...fileSections(props, (make) => () => void save(make)),
          ...(pages.length === 0
            ? []
            : [
                {
                  heading: "On paper",
                  items: pages.map((page) => ({ ...page, act: () => setSheet(page.sheet) })),
                },
              ]),
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

function fileSections({ judgement, hits, origin }: TakeItAlongProps, saves: Saves): readonly OutSection[] {
  const { hearing, compared } = judgement;
  const heard = hearing.kind === "heard" ? hearing : undefined;
  const take: readonly OutItem[] = [
    {
      id: "take-mid",
      name: "MIDI file",
      remark: "every strike as it was played",
      act: saves(async () => (await files()).takeMidi(hits, hearing, origin)),
    },
    ...(heard
      ? [
          {
            id: "take-musicxml",
            name: "MusicXML",
            remark: "written down as I understood it",
            act: saves(async () => (await files()).takeMusicXml(hits, heard, origin)),
          },
        ]
      : []),
    {
      id: "strikes-csv",
      name: "Strikes, CSV",
      remark: "a line for each",
      act: saves(async () => (await files()).strikesCsv(hits, hearing, origin)),
    },
    ...(compared
      ? [
          {
            id: "report-csv",
            name: "Report, CSV",
            remark: "its figures as a table",
            act: saves(async () => (await files()).reportCsv(compared.report, origin)),
          },
        ]
      : []),
  ];
  const groove = compared ? writtenItems({ kind: "groove", music: compared.groove }, origin, saves) : [];
  return [
    { heading: "This take", items: take },
    { heading: "The groove", items: groove },
  ].filter(({ items }) => items.length > 0);
}

interface PageOffered {
  readonly id: string;
  readonly name: string;
  readonly remark: string;
  readonly keyCap?: string;
  readonly sheet: Sheet;
}

/** The page that P prints stands first. */
function pagesOf({ judgement, origin, calledName }: TakeItAlongProps): readonly PageOffered[] {
  const { hearing, compared } = judgement;
  if (!compared) return [];
  const { groove, report } = compared;
  const measured = isComparable(report) && !isAnother(hearing, calledName);
  const pages: readonly Omit<PageOffered, "keyCap">[] = [
    ...(measured
      ? [
          {
            id: "practice",
            name: "Practice page",
            remark: "what to work on, to take home",
            sheet: {
              kind: "practice",
              groove,
              report,
              means: placeMeans(report, groove, report.band.halfBandMs),
              day: origin.day,
            },
          } as const,
        ]
      : []),
    { id: "groove", name: "Groove sheet", remark: "as written", sheet: grooveSheet(groove) },
  ];
  return pages.map((page, at) => (at === 0 ? { ...page, keyCap: "P" } : page));
}

/** With what makes the style itself, where the groove is one of the catalogue's. */
function grooveSheet(groove: Groove): Sheet {
  const itself = STYLES.find(({ variants }) => variants.some(({ id }) => id === groove.id))?.itself;
  return { kind: "groove", groove, ...(itself === undefined ? {} : { itself }) };
}
