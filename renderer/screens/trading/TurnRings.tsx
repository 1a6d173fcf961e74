import { useMemo } from "react";
import type { Seconds } from "../../../engine/units/index.ts";
import { BarRing, type PlayedMark } from "../../charts/BarRing.tsx";
import { useHandPlace } from "../call-a-style/useHandPlace.ts";
import styles from "./Trading.module.css";

export interface TurnRing {
  readonly name: string;
  readonly isOn: boolean;
  readonly played: readonly PlayedMark[];
}

/** A bar of the pulse: the hand goes round in it. */
export interface RingBar {
  readonly fromSeconds: Seconds;
  readonly seconds: Seconds;
  readonly beats: number;
}

/** Both players' rings; the hand is on the ring of the one whose turn it is. */
export function TurnRings({
  rings,
  bar,
  size,
  leastTextPixels,
  now,
}: {
  readonly rings: readonly TurnRing[];
  readonly bar: RingBar | null;
  readonly size: number;
  readonly leastTextPixels?: number;
  readonly now?: () => Seconds;
}) {
  const { fromSeconds, seconds, beats } = bar ?? {};
  // Every page that is sent to the wall brings a new copy of the same bar.
  const clock = useMemo(
    () =>
      fromSeconds === undefined || seconds === undefined || beats === undefined
        ? undefined
        : { turnFrom: fromSeconds, turnSeconds: seconds, beatsPerTurn: beats, turns: [] },
    [fromSeconds, seconds, beats],
  );
  const hand = useHandPlace(clock, now);
  return (
    <div className={styles.rings}>
      {rings.map(({ name, isOn, played }) => (
        <figure key={name} className={styles.ring} data-on={isOn || undefined}>
          <BarRing
            groove={undefined}
            played={played}
            handPlace={isOn ? hand : undefined}
            size={size}
            leastTextPixels={leastTextPixels}
            beats={beats}
            label={`${name}: the bar as it was played last`}
          />
          <figcaption>{name}</figcaption>
        </figure>
      ))}
    </div>
  );
}
