import { useLesson } from "../../app/LessonContext.tsx";
import { hrefOf } from "../../app/route.ts";
import {
  FASTEST_CLICK_BPM,
  FEWEST_CARDS,
  MOST_CARDS_LAID,
  MOST_JOKERS,
  SLOWEST_CLICK_BPM,
} from "../../session/cardSettings.ts";
import { useWatched } from "../../session/store.ts";
import { NumberBox, Toggle } from "../../theme/index.ts";
import styles from "./CardTable.module.css";

/** What can be chosen before the cards are laid. */
export function BeforeCards() {
  const { framed } = useLesson();
  const round = framed["card-table"];
  const { settings } = round;
  const everybody = useWatched(round.everybody);
  const { cards, jokersInTen, rhythms, toClick, clickBpm, fourNames, naming, trouble } = useWatched(settings);
  return (
    <div className={styles.before}>
      <div className={styles.numbers}>
        <NumberBox
          label="Cards"
          value={cards}
          least={FEWEST_CARDS}
          most={MOST_CARDS_LAID}
          onChange={(to) => settings.set({ cards: to })}
        />
        <NumberBox
          label="Jokers to ten cards"
          value={jokersInTen}
          least={0}
          most={MOST_JOKERS}
          onChange={(to) => settings.set({ jokersInTen: to })}
        />
      </div>
      <Toggle isOn={fourNames} onChange={(isOn) => settings.set({ fourNames: isOn })}>
        Four names to choose from
      </Toggle>
      <Toggle isOn={rhythms} onChange={(isOn) => settings.set({ rhythms: isOn })}>
        Bars to be struck among them
      </Toggle>
      {rhythms && (
        <div className={styles.numbers}>
          <Toggle isOn={toClick} onChange={(isOn) => settings.set({ toClick: isOn })}>
            To a click, counted in by a bar
          </Toggle>
          {toClick && (
            <NumberBox
              label="Beats a minute"
              value={clickBpm}
              least={SLOWEST_CLICK_BPM}
              most={FASTEST_CLICK_BPM}
              onChange={(to) => settings.set({ clickBpm: to })}
            />
          )}
        </div>
      )}
      {round.players().length > 1 && (
        <Toggle isOn={everybody} onChange={(isOn) => round.everybody.dispatch(isOn)}>
          Everybody answers each card
        </Toggle>
      )}
      <p className={styles.soft}>
        Names as in {naming === "us" ? "the United States: quarter note" : "the United Kingdom: crotchet"}.
        Both are understood; which is shown is set in <a href={hrefOf("studio")}>Studio</a>.
      </p>
      {trouble !== undefined && <p role="alert">{trouble}</p>}
    </div>
  );
}
