import { useState } from "react";
import type { TakeState } from "../../../engine/session/index.ts";
import type { OtherTake } from "./otherTakes.ts";

/** What is laid beside a take, as long as that take is looked at. Nothing is until it is asked for: it is the lesson that is. */
export function useLaidBeside() {
  const [laid, setLaid] = useState<{ of: string; other: string; isLed: boolean } | null>(null);
  return {
    of: ({ takeId }: TakeState, others: readonly OtherTake[]) =>
      laid?.of === takeId ? others.find((other) => other.takeId === laid.other) : undefined,
    isLed: laid?.isLed ?? false,
    lay: ({ takeId }: TakeState, other: OtherTake | undefined, isLed: boolean) =>
      setLaid(other ? { of: takeId, other: other.takeId, isLed } : null),
  };
}
