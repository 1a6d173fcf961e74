/**
 * What was played at the cursor: the ring with its hand, written over heard bar by bar, and what could be said of the take
 * up to this bar.
 */
import { type ReactNode, useMemo, useState, useSyncExternalStore } from "react";
import { leanWords, workOnWords } from "../../../engine/grading/index.ts";
import { beatsPerBar, grooveBeats, writeStaff } from "../../../engine/score/index.ts";
import { BarRing, LeanAlong, LeanByBeat, ringSpan, VoiceTable } from "../../charts/index.ts";
import { DifferenceKey } from "../../notation/DifferenceKey.tsx";
import { heardRounds } from "../../notation/heardStaff.ts";
import { HeardStaff, Staff } from "../../notation/index.ts";
import { headingWords, sublineWords } from "../call-a-style/report/headingWords.ts";
import { countUpTo } from "./moments.ts";
import styles from "./replay.module.css";
import type { OpenLesson } from "./replayDesk.ts";
import type { ReplayPlayer } from "./replayPlayer.ts";
import { momentWords } from "./replayWords.ts";
import type { TakeAgain } from "./takeAgain.ts";
import {
  barAt,
  beatAt,
  marksUpTo,
  type PlacedTake,
  placedTake,
  reportUpTo,
  ringStrokes,
} from "./takePlace.ts";
import { numberOf } from "./takesOfLesson.ts";

export interface TakeAtCursorProps {
  readonly lesson: OpenLesson;
  readonly again: TakeAgain;
  readonly player: ReplayPlayer;
  /** What it is laid beside. */
  readonly beside: ReactNode;
}

const RING_PIXELS = 280;
const STAFF_SPACE = 9;
/** Addresses hold milliseconds: a cursor put on a strike is on it. */
const SAME_MOMENT = 0.0006;

export function TakeAtCursor({ lesson, again, player, beside }: TakeAtCursorProps) {
  const { take, judgement, hits } = again;
  const placed = useMemo(() => placedTake(again), [again]);
  const { hearing } = judgement;
  const number = numberOf(lesson.moments.whole, take);
  const who = lesson.lanes.length > 1 ? `, ${lesson.lanes[take.lane]?.who ?? ""}` : "";
  return (
    <section className={styles.section} aria-label={`Take ${number}${who}`}>
      <h2>
        Take {number}
        {who}: {headingWords(hearing, take.called?.name)}
      </h2>
      <p className={styles.sub}>
        {momentWords(take.from)} to {momentWords(take.to ?? lesson.moments.seconds)}.{" "}
        {sublineWords(hearing, { click: judgement.click !== null, calledName: take.called?.name })}
      </p>
      {placed ? (
        <>
          <Following placed={placed} player={player} />
          {beside}
        </>
      ) : (
        hearing.kind === "heard" && (
          <>
            <p>It was compared with nothing. As it was heard:</p>
            <HeardStaff hits={hits} hearing={hearing} space={STAFF_SPACE} />
          </>
        )
      )}
      {hits.length === 0 && <p>No strike came between its beginning and its end.</p>}
    </section>
  );
}

/** Ring, staff and charts, as far as the cursor has come. */
function Following({ placed, player }: { readonly placed: PlacedTake; readonly player: ReplayPlayer }) {
  const { groove } = placed;
  const bar = useSyncExternalStore(player.subscribe, () => barAt(placed, player.get().cursor));
  const report = useMemo(() => reportUpTo(placed, bar), [placed, bar]);
  const bars = placed.report.perBar.length;
  const against = { leanMs: report.leanMs, bandMs: report.band.halfBandMs, limitMs: report.band.hearableMs };
  const { perBar, tempoBpm, driftPercent, start } = report;
  return (
    <>
      <div className={styles.look}>
        <Ring placed={placed} player={player} />
        <div>
          <p className={styles.say}>{leanWords(report, report.band.level, 0)}</p>
          <p className={styles.say}>{workOnWords(report.workOn, report.band.halfBandMs)}</p>
          <p className={styles.hint}>
            {bar + 1 < bars ? `Up to bar ${bar + 1} of ${bars}, where the cursor is.` : `All ${bars} bars.`}
          </p>
          {report.perBeat.length > 0 && (
            <LeanByBeat perBeat={report.perBeat} workOn={report.workOn} width={360} {...against} />
          )}
        </div>
      </div>
      <StaffAtBar placed={placed} bar={bar} player={player} />
      {perBar.length > 1 && tempoBpm !== null && (
        <LeanAlong
          perBar={perBar}
          drift={{ driftPercent, start, barSeconds: beatsPerBar(groove.metre) * (60 / tempoBpm) }}
          height={190}
          {...against}
        />
      )}
      <h3>Sounds, written against heard{bar + 1 < bars ? ", so far" : ""}</h3>
      <VoiceTable voices={report.voices} />
    </>
  );
}

function Ring({ placed, player }: { readonly placed: PlacedTake; readonly player: ReplayPlayer }) {
  const { groove } = placed;
  const { beats } = ringSpan(groove);
  const strokes = useMemo(() => ringStrokes(placed), [placed]);
  const [isStill] = useState(() => window.matchMedia("(prefers-reduced-motion: reduce)").matches);
  const count = useSyncExternalStore(player.subscribe, () =>
    countUpTo(strokes.times, player.get().cursor + SAME_MOMENT),
  );
  const marks = useMemo(() => marksUpTo(placed, strokes, count), [placed, strokes, count]);
  const place = useSyncExternalStore(player.subscribe, () => {
    const beat = beatAt(placed, player.get().cursor);
    return (isStill ? Math.floor(beat + 1e-3) : beat) / beats;
  });
  return (
    <figure className={styles.ring}>
      <BarRing
        groove={groove}
        played={marks}
        handPlace={place}
        size={RING_PIXELS}
        label={`Bar ring of ${groove.name}, the four bars up to the cursor`}
      />
    </figure>
  );
}

/** The round of the groove at the cursor, written over heard, with the bar marked. */
function StaffAtBar({
  placed,
  bar,
  player,
}: {
  readonly placed: PlacedTake;
  readonly bar: number;
  readonly player: ReplayPlayer;
}) {
  const { groove, report } = placed;
  const rounds = useMemo(() => heardRounds(report, groove, report.band.halfBandMs), [report, groove]);
  const inRound = grooveBeats(groove);
  const index = useSyncExternalStore(player.subscribe, () =>
    Math.min(
      rounds.length - 1,
      Math.max(0, Math.floor(beatAt(placed, player.get().cursor) / inRound + 1e-2)),
    ),
  );
  const round = rounds[index];
  const staves = useMemo(() => {
    if (!round) return [];
    const { metre, feel, bars, notes } = groove;
    return [
      { score: writeStaff({ metre, feel, bars, notes }), label: "written" },
      { score: writeStaff(round.source), label: "heard", differences: round.differences },
    ];
  }, [groove, round]);
  if (!round) return null;
  const kinds = [...new Set([...round.differences.values()].map(({ kind }) => kind))];
  const first = index * groove.bars + 1;
  const name = groove.bars === 1 ? `Bar ${first}` : `Bars ${first} to ${first + groove.bars - 1}`;
  return (
    <figure className={styles.staff}>
      <h3>Written over heard, {name.toLowerCase()}</h3>
      <Staff
        staves={staves}
        label={`${name}, written over heard`}
        space={STAFF_SPACE}
        heading={groove.feel.kind === "swung"}
        {...(groove.bars > 1 ? { currentBar: bar % groove.bars } : {})}
      />
      <DifferenceKey kinds={kinds} />
    </figure>
  );
}
