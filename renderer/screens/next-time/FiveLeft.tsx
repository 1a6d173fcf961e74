import { useState } from "react";
import {
  type Deal,
  type DealtRound,
  dealRounds,
  dealWords,
  type ItemId,
  type NextTimeList,
  type OwnNames,
  ROUND_NAMES,
} from "../../../engine/memory/index.ts";
import type { RoundKind } from "../../../engine/session/index.ts";
import type { Chance } from "../../../engine/units/index.ts";
import { Button, NumberBox } from "../../theme/index.ts";
import { dealtWords } from "./listWords.ts";
import styles from "./NextTime.module.css";
import { ROUNDS_HERE } from "./roundsHere.ts";

/** A lesson is half an hour; more is no "left". */
const MOST_MINUTES = 30;

/** Five minutes left: a short set of rounds from what is fading, dealt for the time there is. */
export function FiveLeft({
  list,
  ownNames,
  rounds = ROUNDS_HERE,
  chance = Math.random,
  onPlay,
}: {
  readonly list: NextTimeList;
  readonly ownNames: OwnNames;
  readonly rounds?: readonly RoundKind[];
  readonly chance?: Chance;
  readonly onPlay: (item: ItemId) => void;
}) {
  const [minutes, setMinutes] = useState(5);
  const [deal, setDeal] = useState<Deal | null>(null);
  return (
    <>
      <NumberBox label="Minutes left" value={minutes} least={2} most={MOST_MINUTES} onChange={setMinutes} />
      <div className={styles.actions}>
        <Button
          weight="go"
          onPress={() => setDeal(dealRounds({ list, minutesLeft: minutes, rounds, chance }))}
        >
          {deal === null ? "Deal" : "Deal again"}
        </Button>
      </div>
      <div role="status">
        {deal && <p>{dealWords(deal)}</p>}
        {deal && deal.rounds.length > 0 && (
          <ol className={styles.dealt}>
            {deal.rounds.map((dealt) => (
              <Dealt key={dealt.round} dealt={dealt} ownNames={ownNames} onPlay={onPlay} />
            ))}
          </ol>
        )}
      </div>
    </>
  );
}

function Dealt({
  dealt: { round, minutes, items },
  ownNames,
  onPlay,
}: {
  readonly dealt: DealtRound;
  readonly ownNames: OwnNames;
  readonly onPlay: (item: ItemId) => void;
}) {
  const [first] = items;
  return (
    <li>
      <strong>{ROUND_NAMES[round]}</strong>, {minutes} minutes
      <ul>
        {items.map((each) => (
          <li key={each.item}>{dealtWords(each, ownNames)}</li>
        ))}
      </ul>
      {first && (
        <Button weight="quiet" onPress={() => onPlay(first.item)}>
          Begin with the first
        </Button>
      )}
    </li>
  );
}
