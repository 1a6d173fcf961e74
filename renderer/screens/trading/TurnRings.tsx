import { useMemo, useState } from "react";
import type { Voice } from "../../../engine/kit/index.ts";
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
      {rings.map((ring) => (
        <Ring
          key={ring.name}
          {...ring}
          hand={ring.isOn ? hand : undefined}
          size={size}
          leastTextPixels={leastTextPixels}
          beats={beats}
        />
      ))}
    </div>
  );
}

function Ring({
  name,
  isOn,
  played,
  hand,
  size,
  leastTextPixels,
  beats,
}: TurnRing & {
  readonly hand: number | undefined;
  readonly size: number;
  readonly leastTextPixels: number | undefined;
  readonly beats: number | undefined;
}) {
  return (
    <figure className={styles.ring} data-on={isOn || undefined}>
      <BarRing
        groove={undefined}
        voices={useVoicesSoFar(played)}
        played={played}
        handPlace={hand}
        size={size}
        leastTextPixels={leastTextPixels}
        beats={beats}
        label={`${name}: the bar as it was played last`}
      />
      <figcaption>{name}</figcaption>
    </figure>
  );
}

/** All voices that were struck since the rings are on the page: their circles stay when a new turn begins with none of them. */
function useVoicesSoFar(played: readonly PlayedMark[]): readonly Voice[] {
  const [soFar, setSoFar] = useState<readonly Voice[]>([]);
  const fresh = new Set(played.map(({ voice }) => voice).filter((voice) => !soFar.includes(voice)));
  if (fresh.size > 0) setSoFar([...soFar, ...fresh]);
  return soFar;
}
