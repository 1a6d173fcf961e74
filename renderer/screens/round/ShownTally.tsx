import { itemName, type OwnNames } from "../../../engine/memory/index.ts";
import type { PlayerId, Shown } from "../../../engine/rounds/index.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import styles from "./ShownTally.module.css";
import { SHOWN_HEADINGS, saidTogether, standingOf } from "./standing.ts";

/** What a round showed, by player: how each thing stood when it was asked last. No count of it is a mark. */
export function ShownTally({
  shown,
  ownNames,
}: {
  readonly shown: readonly Shown[];
  /** Names of what is not of the stock. */
  readonly ownNames?: OwnNames;
}) {
  const { roster } = useStudio();
  if (shown.length === 0) return <p className={styles.soft}>Nothing was asked that could hold or slip.</p>;
  const players = [...new Set(shown.map(({ by }) => by))];
  const nameOf = (by: PlayerId | null): string =>
    by === null ? "Nobody in particular" : (roster.student(by)?.nickname ?? "A student");
  return players.map((by) => {
    const standing = standingOf(shown.filter((each) => each.by === by));
    return (
      <section key={by} className={styles.tally}>
        {(players.length > 1 || by !== null) && <h2>{nameOf(by)}</h2>}
        <dl>
          {SHOWN_HEADINGS.filter(([outcome]) => standing.some((each) => each.outcome === outcome)).map(
            ([outcome, heading]) => (
              <div key={outcome}>
                <dt>{heading}</dt>
                {saidTogether(standing.filter((each) => each.outcome === outcome)).map(({ words, items }) => (
                  <dd key={items[0]}>
                    {items.length > 1 && words}{" "}
                    <b>{items.map((item) => itemName(item, ownNames).name).join(", ")}</b>
                    {items.length === 1 && words !== "" && `: ${words}`}
                  </dd>
                ))}
              </div>
            ),
          )}
        </dl>
      </section>
    );
  });
}
