/** What a student takes home: the one thing to work on, where it showed, the groove, how to begin, room to write. */
import { type Report, workOnWords } from "../../../engine/grading/index.ts";
import type { Groove } from "../../../engine/score/index.ts";
import { BarRing, type PlaceMean, type PlayedMark } from "../../charts/BarRing.tsx";
import { dayWords } from "./dayWords.ts";
import { practiceSteps, practiceTempos, whereWords } from "./practice.ts";
import styles from "./print.module.css";
import { Caution, Paper, RING_PIXELS, RoomToWrite, SheetTop } from "./SheetParts.tsx";
import { SheetStaff } from "./SheetStaff.tsx";
import { StaffPages, staffHeight } from "./StaffPages.tsx";
import type { SheetHead } from "./sheet.ts";
import { linesOfGroove } from "./staffLines.ts";
import { workNote } from "./workMark.ts";
import { writtenWords } from "./writtenWords.ts";

export interface PracticePageProps {
  readonly groove: Groove;
  readonly report: Report;
  readonly means: readonly PlaceMean[];
  readonly day: Date;
  readonly head: SheetHead;
}

/** CSS pixels up to which the staff stands between what is to be worked on and the ring; a longer one follows on pages of its own. */
const STAFF_HERE = 250;
const NO_STRAYS: readonly PlayedMark[] = [];

export function PracticePage({ groove, report, means, day, head }: PracticePageProps) {
  const { workOn, tempoBpm, band } = report;
  const tempos =
    tempoBpm === null ? [] : practiceTempos(workOn, { playedBpm: tempoBpm, bandMs: band.halfBandMs });
  const where = whereWords(workOn, report.workOnPlace);
  const lines = linesOfGroove(groove, {
    repeated: true,
    tempoBpm: tempos[0],
    marked: workNote(groove, workOn, report.workOnPlace),
  });
  const isShort = staffHeight(lines) <= STAFF_HERE;
  return (
    <>
      <Paper>
        <SheetTop head={head} kind="Practice page" title={groove.name}>
          {`${writtenWords(groove)}. ${takeWords(report, day)}`}
        </SheetTop>
        <section className={styles.work}>
          <h2>To work on</h2>
          <p className={styles.say}>{workOnWords(workOn, band.halfBandMs)}</p>
          {where === null ? null : <p>{where}</p>}
        </section>
        {isShort && <SheetStaff of={groove.name} lines={lines} />}
        <div className={styles.beside}>
          <figure className={styles.ring}>
            <BarRing
              groove={groove}
              played={NO_STRAYS}
              means={means}
              handPlace={undefined}
              size={RING_PIXELS}
              label={`Bar ring of ${groove.name}, written and played`}
            />
            <figcaption>
              Circles: as written, clockwise from the top. Bars across them: where you played. With a dot:
              away from its place.
            </figcaption>
          </figure>
          <div>
            {tempos.length === 0 ? null : <Tempos tempos={tempos} />}
            <h2>In three steps</h2>
            <ol className={styles.steps}>
              {practiceSteps(workOn, groove.voices).map((step) => (
                <li key={step}>{step}</li>
              ))}
            </ol>
          </div>
        </div>
        <RoomToWrite heading="What I noticed" />
        <Caution />
      </Paper>
      {!isShort && <StaffPages of={groove.name} lines={lines} pagesBefore={1} />}
    </>
  );
}

/** "Played on 26 November 2026, at 104 a minute." */
function takeWords({ tempoBpm }: Report, day: Date): string {
  const tempo = tempoBpm === null ? "" : `, at ${Math.round(tempoBpm)} a minute`;
  return `Played on ${dayWords(day)}${tempo}.`;
}

function Tempos({ tempos }: { readonly tempos: readonly number[] }) {
  const [first, ...later] = tempos;
  return (
    <>
      <h2>Begin at {first} a minute</h2>
      <p>
        {later.length === 0
          ? "That is the tempo it was played at."
          : `When eight bars feel easy: ${later
              .slice(0, -1)
              .map((tempo) => `${tempo}, `)
              .join("")}then ${later.at(-1)}, as it was played.`}
      </p>
    </>
  );
}
