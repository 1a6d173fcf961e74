import { RUDIMENT_FAMILY_NAMES, rudimentById } from "../../../engine/catalogue/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { usePlayerName } from "../round/usePlayerName.ts";
import { ChartOfRudiments } from "./ChartOfRudiments.tsx";
import { pagesOf } from "./chartPages.ts";
import { lookWords } from "./chartWords.ts";
import styles from "./WallChart.module.css";

/** The chart, page by page, for as long as the look lasts. Time turns the pages; so can anybody. */
export function Looking() {
  const { framed } = useLesson();
  const round = framed["wall-chart"];
  const { own } = useWatched(round);
  const { leftSeconds, page } = useWatched(round.beside);
  if (own.stage.at !== "looking") return null;
  const pages = pagesOf(own.stage.look);
  const entries = pages[Math.min(page, pages.length - 1)] ?? [];
  return (
    <section aria-labelledby="look">
      <div className={styles.line}>
        <h2 id="look" className={styles.left}>
          <span className={styles.clock} role="timer">
            {lookWords(leftSeconds)}
          </span>{" "}
          {familiesOf(entries)}
        </h2>
        {pages.length > 1 && (
          <fieldset className={styles.pages}>
            <legend className="heard-only">Pages of the chart</legend>
            {pages.map((entries, at) => (
              <Button
                key={entries[0]}
                aria-pressed={at === page}
                isNow={at === page}
                onPress={() => round.turnTo(at)}
              >
                {numberOf(entries[0])} to {numberOf(entries.at(-1))}
              </Button>
            ))}
          </fieldset>
        )}
      </div>
      <WhoLooks />
      <ChartOfRudiments entries={entries} space={5.5} hands="in-a-line" />
    </section>
  );
}

/** Where several play. */
function WhoLooks() {
  const { framed } = useLesson();
  const { own, players } = useWatched(framed["wall-chart"]);
  const nameOf = usePlayerName();
  if (own.stage.at !== "looking" || players.length < 2) return null;
  const [first = null, second] = own.stage.of;
  if (second === undefined) return <p>{nameOf(first)} looks.</p>;
  return <p>Everybody looks. Once it is hidden, each writes down the names; I take them in one by one.</p>;
}

function numberOf(id: string | undefined): number | undefined {
  return id === undefined ? undefined : rudimentById(id)?.number;
}

function familiesOf(entries: readonly string[]): string {
  const families = entries.flatMap((id) => rudimentById(id)?.family ?? []);
  return [...new Set(families)].map((family) => RUDIMENT_FAMILY_NAMES[family]).join(", ");
}
