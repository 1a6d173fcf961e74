/** The take at the cursor beside another one of the same groove, of this lesson or of another one: what changed, and by how much. */
import { useEffect, useRef, useState } from "react";
import { beatsPerBar } from "../../../engine/score/index.ts";
import { ChooseBeside, ComparedTakes } from "../call-a-style/beside/index.ts";
import { isAnother } from "../call-a-style/report/headingWords.ts";
import { isComparable } from "../call-a-style/report/leanFigure.ts";
import type { OtherTake } from "./otherTakes.ts";
import styles from "./replay.module.css";
import type { TakeAgain } from "./takeAgain.ts";

export interface BesideOtherProps {
  readonly again: TakeAgain;
  readonly others: readonly OtherTake[];
  readonly chosen: OtherTake | undefined;
  readonly onChoose: (other: OtherTake | undefined) => void;
  /** It was chosen from elsewhere on the page: then one is led here. */
  readonly isLedHere: boolean;
  readonly open: (other: OtherTake) => Promise<TakeAgain>;
}

export function BesideOther({ again, others, chosen, onChoose, isLedHere, open }: BesideOtherProps) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (chosen && isLedHere) heading.current?.focus();
  }, [chosen, isLedHere]);
  if (others.length === 0 || !measured(again)) return null;
  return (
    <section className={styles.section}>
      <ChooseBeside
        heading={chosen ? `Beside ${chosen.name}` : "Beside another take"}
        headingRef={heading}
        others={others.map(({ takeId, inShort }) => ({ id: takeId, name: inShort }))}
        chosen={chosen?.takeId ?? null}
        onChoose={(id) => onChoose(others.find(({ takeId }) => takeId === id))}
      />
      {chosen && <Laid key={chosen.takeId} again={again} other={chosen} open={open} />}
    </section>
  );
}

type Opened =
  | { readonly stage: "opening" }
  | { readonly stage: "failed"; readonly reason: string }
  | { readonly stage: "open"; readonly take: TakeAgain };

function Laid({
  again,
  other,
  open,
}: {
  readonly again: TakeAgain;
  readonly other: OtherTake;
  readonly open: (other: OtherTake) => Promise<TakeAgain>;
}) {
  const [opened, setOpened] = useState<Opened>({ stage: "opening" });
  const opening = useRef(open);
  useEffect(() => {
    let isWanted = true;
    opening.current(other).then(
      (take) => isWanted && setOpened({ stage: "open", take }),
      (error: unknown) =>
        isWanted &&
        setOpened({
          stage: "failed",
          reason: error instanceof Error ? error.message : String(error),
        }),
    );
    return () => {
      isWanted = false;
    };
  }, [other]);
  if (opened.stage === "opening") return <p role="status">The other take is being listened to again.</p>;
  if (opened.stage === "failed")
    return <p role="alert">It could not be laid beside this one. {opened.reason}</p>;
  const [here, there] = [measured(again), measured(opened.take)];
  if (!here || !there)
    return <p role="status">That take met too little of what is written to be laid beside this one.</p>;
  if (beatsPerBar(here.groove.metre) !== beatsPerBar(there.groove.metre))
    return <p role="status">Their bars are not of as many beats: they cannot be laid side by side.</p>;
  const [current, laid] = [
    { take: here, name: "this take" },
    { take: there, name: other.name },
  ];
  return other.isEarlier ? (
    <ComparedTakes before={laid} now={current} />
  ) : (
    <ComparedTakes before={current} now={laid} />
  );
}

/** What it was compared with, and how; `undefined` where figures of strokes that met by accident would say nothing. */
function measured({ take, judgement }: TakeAgain) {
  const { compared, hearing } = judgement;
  if (!compared || !isComparable(compared.report) || isAnother(hearing, take.called?.name)) return undefined;
  return compared;
}
