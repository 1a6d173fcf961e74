import { useEffect, useLayoutEffect } from "react";
import { type Exchanged, tradingRules } from "../../../engine/rounds/index.ts";
import { beatsPerBar } from "../../../engine/score/index.ts";
import { AIM_NAMES, barAt } from "../../../engine/trading/index.ts";
import { beatSeconds } from "../../../engine/units/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useProgram } from "../../app/ProgramContext.tsx";
import { measureStrikePaint } from "../../session/paintMark.ts";
import { useWatched } from "../../session/store.ts";
import { RoundFrame } from "../round/RoundFrame.tsx";
import { BeforeTrading } from "./BeforeTrading.tsx";
import { FormTimeline } from "./FormTimeline.tsx";
import { ringMarks } from "./ringMarks.ts";
import styles from "./Trading.module.css";
import { TurnRings } from "./TurnRings.tsx";
import { barsLeftWords, hasTurn, turnWords } from "./tradingWords.ts";

const CARD = [
  "One plays a phrase, the other answers; the form goes on.",
  "The answer gives it back as it was, or moves one sound or accent, or finishes what the call left open, or is free.",
  "After each exchange it is said what became of the call, rhythm and sound apart.",
] as const;

/** Two of them side by side beside the margin, at 1280. */
const RING_PIXELS = 300;

/** Trading: two players exchange phrases in time. */
export function Trading() {
  const { framed } = useLesson();
  const round = framed.trading;
  const { own, stage } = useWatched(round);
  const { turns, gone } = useWatched(round.on);
  const { room } = useProgram();
  useEffect(() => {
    const far = room.get();
    return far ? round.meet(far) : undefined;
  }, [room, round]);
  // Leaving the page must not leave a click behind.
  useEffect(() => () => round.leavePage(), [round]);
  const isOn = turns.length > 0;
  return (
    <RoundFrame
      round={round}
      title="Trading"
      sub={own.calls === 1 && stage === "running" ? `Turned round: ${round.names()[1]} calls.` : undefined}
      card={CARD}
      names={{
        next: isOn ? "Pass on" : own.stage === "between" ? "Begin the form" : "The form again",
        again: own.set.form === "free" || gone ? "End the form" : "From the top",
      }}
      before={
        <>
          <Trouble />
          <BeforeTrading />
        </>
      }
      shown={tradingRules.shown(own)}
      tally={<Exchanges exchanges={own.past} names={round.names()} />}
    >
      <Trouble />
      {isOn ? <TurnBoard /> : <Told />}
    </RoundFrame>
  );
}

function Trouble() {
  const { framed } = useLesson();
  const trouble = useWatched(framed.trading.trouble);
  return trouble.length > 0 && <p role="alert">{trouble.join(" ")}</p>;
}

/** Whose turn, bars left, both rings, and what was said of the exchange before. */
function TurnBoard() {
  const { framed } = useLesson();
  const round = framed.trading;
  const { own } = useWatched(round);
  const now = useWatched(round.on);
  const names = round.names();
  const struck = now.hits.at(-1)?.time;
  useLayoutEffect(() => {
    if (struck !== undefined) measureStrikePaint(struck);
  }, [struck]);
  const { pulse, at } = now;
  const latest = own.exchanges.at(-1);
  return (
    <>
      <h2 className={styles.turn}>{turnWords(now, names)}</h2>
      <p className={styles.left}>{barsLeftWords(now)}</p>
      {now.gone && (
        <p role="alert" className={styles.gone}>
          {now.gone.sentence}
        </p>
      )}
      <TurnRings
        rings={([0, 1] as const).map((side) => ({
          name: names[side],
          isOn: at !== null && hasTurn(at, side),
          played: ringMarks(now, side),
        }))}
        bar={
          pulse && {
            fromSeconds: barAt(pulse, 0),
            seconds: beatsPerBar(pulse.metre) * beatSeconds(pulse.tempoBpm),
            beats: beatsPerBar(pulse.metre),
          }
        }
        size={RING_PIXELS}
      />
      <section className={styles.latest} aria-label="What became of the call" aria-live="polite">
        {latest && <Said says={latest.says} />}
      </section>
    </>
  );
}

/** Between two forms: what was said of the last one. */
function Told() {
  const { framed } = useLesson();
  const round = framed.trading;
  const { own } = useWatched(round);
  const names = round.names();
  if (own.stage === "between") return <p className={styles.say}>{names[own.calls]} calls. Begin the form.</p>;
  if (own.stage === "on")
    return (
      <>
        <p className={styles.say}>The form was broken off. Begin it again: it starts from its top.</p>
        <FormTimeline exchanges={own.exchanges.map(({ timeline }) => timeline)} names={names} />
      </>
    );
  return (
    <section className={styles.told} aria-labelledby="told">
      <h2 id="told">What was heard</h2>
      <Said says={own.says} />
      <FormTimeline exchanges={own.exchanges.map(({ timeline }) => timeline)} names={names} />
      <Exchanges exchanges={own.exchanges} names={names} />
    </section>
  );
}

function Said({ says }: { readonly says: readonly string[] }) {
  return says.map((sentence) => (
    <p key={sentence} className={styles.say}>
      {sentence}
    </p>
  ));
}

/** Each exchange in a row. */
function Exchanges({
  exchanges,
  names,
}: {
  readonly exchanges: readonly Exchanged[];
  readonly names: readonly [string, string];
}) {
  if (exchanges.length === 0) return <p className={styles.soft}>No exchange was heard to its end.</p>;
  return (
    <table className={styles.exchanges}>
      <caption>Exchanges</caption>
      <thead>
        <tr>
          <th scope="col">Answer</th>
          <th scope="col">Meant as</th>
          <th scope="col">What became of the call</th>
        </tr>
      </thead>
      <tbody>
        {exchanges.map(({ calls, aim, says }, at) => (
          <tr key={at}>
            <th scope="row">
              {at + 1}, {names[calls === 0 ? 1 : 0]}
            </th>
            <td>{AIM_NAMES[aim]}</td>
            <td>{says.join(" ")}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
