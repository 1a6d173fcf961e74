import { useEffect, useMemo, useState } from "react";
import { beatsPerBar, type Groove } from "../../engine/score/index.ts";
import type { Seconds } from "../../engine/units/index.ts";
import { Staff } from "./Staff.tsx";
import { writtenStaff } from "./writtenStaff.ts";

/** When a turn of the clock began, and how long a turn is. */
export interface StaffClock {
  readonly beatsPerTurn: number;
  readonly turnFrom: Seconds;
  readonly turnSeconds: Seconds;
}

export interface LiveStaffProps {
  readonly groove: Groove;
  readonly label: string;
  readonly space: number;
  readonly leastSpace?: number;
  /** Without one no bar is marked. */
  readonly clock: StaffClock | undefined;
  /** Now, on the clock's own time. */
  readonly now: () => Seconds;
}

/** What is written, with the bar that is played now marked. */
export function LiveStaff({ groove, clock, now, ...how }: LiveStaffProps) {
  const staves = useMemo(() => writtenStaff(groove), [groove]);
  return <Staff staves={staves} currentBar={useCurrentBar(groove, clock, now)} {...how} />;
}

/** Looks again at each bar line and not between. `undefined` where the clock cannot tell which bar of several it is. */
function useCurrentBar(
  groove: Groove,
  clock: StaffClock | undefined,
  now: () => Seconds,
): number | undefined {
  const [bar, setBar] = useState<number>();
  const { beatsPerTurn, turnFrom, turnSeconds } = clock ?? {};
  useEffect(() => {
    setBar(undefined);
    // A single bar is always the one that is played.
    if (groove.bars === 1) return;
    if (beatsPerTurn === undefined || turnFrom === undefined || turnSeconds === undefined) return;
    const barsInTurn = beatsPerTurn / beatsPerBar(groove.metre);
    if (barsInTurn !== groove.bars) return;
    const barSeconds = turnSeconds / barsInTurn;
    let timer: ReturnType<typeof setTimeout>;
    const look = (): void => {
      const played = (now() - turnFrom) / barSeconds;
      const whole = Math.floor(played);
      setBar(played < 0 ? undefined : whole % groove.bars);
      timer = setTimeout(look, (whole + 1 - played) * barSeconds * 1000 + 1);
    };
    look();
    return () => clearTimeout(timer);
  }, [groove, beatsPerTurn, turnFrom, turnSeconds, now]);
  return bar;
}
