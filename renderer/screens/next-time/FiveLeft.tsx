import { useState } from "react";
import {
  type Day,
  type Deal,
  type DealtRound,
  dealBadDay,
  dealRounds,
  dealWords,
  goesWell,
  type ItemId,
  likingOf,
  type NextTimeList,
  type OwnNames,
  type Result,
  ROUND_NAMES,
} from "../../../engine/memory/index.ts";
import type { RoundKind } from "../../../engine/session/index.ts";
import type { Chance } from "../../../engine/units/index.ts";
import { Button, NumberBox, Toggle } from "../../theme/index.ts";
import { dealtWords } from "./listWords.ts";
import styles from "./NextTime.module.css";
import type { Wanted } from "./playItemsIn.ts";
import { ROUNDS_HERE } from "./roundsHere.ts";

/** A lesson is half an hour; more is no "left". */
const MOST_MINUTES = 30;

/** Five minutes left: a short set of rounds from what is fading, dealt for the time there is. */
export function FiveLeft({
  list,
  results,
  today,
  ownNames,
  rounds = ROUNDS_HERE,
  chance = Math.random,
  onPlay,
}: {
  readonly list: NextTimeList;
  /** All that was shown so far: what goes well and what is liked is taken from it. */
  readonly results: readonly Result[];
  readonly today: Day;
  readonly ownNames: OwnNames;
  readonly rounds?: readonly RoundKind[];
  readonly chance?: Chance;
  readonly onPlay: (wanted: Wanted) => void;
}) {
  const [minutes, setMinutes] = useState(5);
  const [isBadDay, setBadDay] = useState(false);
  const [deal, setDeal] = useState<Deal | null>(null);
  return (
    <>
      <NumberBox label="Minutes left" value={minutes} least={2} most={MOST_MINUTES} onChange={setMinutes} />
      <Toggle isOn={isBadDay} onChange={setBadDay}>
        A bad day: only what goes well
      </Toggle>
      <div className={styles.actions}>
        <Button
          weight="go"
          onPress={() => {
            const asked = { minutesLeft: minutes, rounds, liking: likingOf(results), chance };
            setDeal(
              isBadDay
                ? dealBadDay({ ...asked, goesWell: goesWell(results, today) })
                : dealRounds({ ...asked, list }),
            );
          }}
        >
          {deal === null ? "Deal" : "Deal again"}
        </Button>
      </div>
      <div role="status">
        {deal && <p>{dealWords(deal)}</p>}
        {deal && deal.rounds.length > 0 && (
          <ol className={styles.dealt}>
            {deal.rounds.map((dealt) => (
              <Dealt
                key={dealt.round}
                dealt={dealt}
                ownNames={ownNames}
                onPlay={(items) => onPlay({ items, nothingElse: deal.of === "goes-well" })}
              />
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
  readonly onPlay: (items: readonly ItemId[]) => void;
}) {
  return (
    <li>
      <strong>{ROUND_NAMES[round]}</strong>, {minutes} minutes
      <ul>
        {items.map((each) => (
          <li key={each.item}>{dealtWords(each, ownNames)}</li>
        ))}
      </ul>
      <Button weight="quiet" onPress={() => onPlay(items.map(({ item }) => item))}>
        Begin with these
      </Button>
    </li>
  );
}
