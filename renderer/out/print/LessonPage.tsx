/** A lesson on one page, for the student: what was played, what to work on, what held, room to write. No marks. */

import styles from "./lessonPage.module.css";
import {
  asManyAsFit,
  type LessonReport,
  MOST_PLAYED,
  MOST_REMARKS,
  namesThatFit,
  type PlayedInLesson,
  shortened,
} from "./lessonReport.ts";
import print from "./print.module.css";
import { Caution, Paper, RoomToWrite, SheetTop } from "./SheetParts.tsx";
import type { SheetHead } from "./sheet.ts";

export function LessonPage({ report, head }: { readonly report: LessonReport; readonly head: SheetHead }) {
  const { day, when, played, shown, remarks, isInvented } = report;
  const grooves = asManyAsFit(played, MOST_PLAYED);
  const noted = asManyAsFit(remarks, MOST_REMARKS);
  return (
    <Paper>
      <SheetTop head={head} kind="Lesson report" title={`Lesson of ${day}`}>
        {when}
        {isInvented ? ". Invented, by the demo studio" : ""}
      </SheetTop>
      {played.length > 0 && (
        <section className={styles.part}>
          <h2>Played</h2>
          <ul className={styles.played}>
            {grooves.shown.map((groove) => (
              <Played key={groove.name} {...groove} />
            ))}
          </ul>
          {grooves.more > 0 && <p>And {grooves.more} more.</p>}
        </section>
      )}
      {played.length === 0 && <p className={print.under}>Nothing was played and measured in this lesson.</p>}
      <Shown heading="It held" names={shown.held} />
      <Shown heading="To refresh" names={shown.slipped} />
      <Shown heading="New" names={shown.met} />
      {remarks.length > 0 && (
        <section className={styles.part}>
          <h2>Noted</h2>
          <ul className={styles.noted}>
            {noted.shown.map(({ moment, text }) => (
              <li key={`${moment} ${text}`}>
                {moment}: {shortened(text)}
              </li>
            ))}
          </ul>
          {noted.more > 0 && <p>And {noted.more} more.</p>}
        </section>
      )}
      <RoomToWrite heading="For next time" />
      <Caution />
    </Paper>
  );
}

function Played({ name, takes, how, figures, workOn }: PlayedInLesson) {
  return (
    <li>
      <b>{name}</b>
      {`, ${takes === 1 ? "once" : `${takes} takes`}${how === "" ? "" : `, ${how}`}`}
      {figures === null ? "." : `: ${figures}.`}
      {workOn === null ? null : <span className={styles.workOn}>{workOn}</span>}
    </li>
  );
}

function Shown({ heading, names }: { readonly heading: string; readonly names: readonly string[] }) {
  if (names.length === 0) return null;
  const fitting = namesThatFit(names);
  return (
    <section className={styles.shown}>
      <h2>{heading}:</h2>{" "}
      <p>
        {fitting.shown.join(", ")}
        {fitting.more > 0 ? `, and ${fitting.more} more` : ""}.
      </p>
    </section>
  );
}
