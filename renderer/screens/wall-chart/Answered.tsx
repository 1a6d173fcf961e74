import { stickingOf } from "../../../engine/catalogue/index.ts";
import type { StickingReport } from "../../../engine/recall/index.ts";
import type { StickingAsked } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { usePlayerName } from "../round/usePlayerName.ts";
import { ChartOfRudiments } from "./ChartOfRudiments.tsx";
import { playedWords, slipsOf } from "./playedWords.ts";
import styles from "./WallChart.module.css";

/** The hands of a rudiment were answered: how they are, and what was played. */
export function Answered() {
  const { framed } = useLesson();
  const round = framed["wall-chart"];
  const { own } = useWatched(round);
  const { reports } = useWatched(round.beside);
  const nameOf = usePlayerName();
  const rudiment = round.asked();
  if (!rudiment || own.stage.at !== "answered") return null;
  const { of } = own.stage;
  const answers = own.past
    .flatMap((each) => (each.kind === "sticking" ? [each.asked] : []))
    .slice(-of.length);
  return (
    <section aria-labelledby="answered">
      <h2 id="answered" className={styles.say}>
        {rudiment.name}: {stickingOf(rudiment)}
      </h2>
      <div role="status" className={of.length > 1 ? styles.players : undefined}>
        {answers.map((answer) => (
          <div key={answer.by}>
            {of.length > 1 && <h3>{nameOf(answer.by)}</h3>}
            {wordsOf(answer, reports.find(({ by }) => by === answer.by)?.report).map((line) => (
              <p key={line}>{line}</p>
            ))}
          </div>
        ))}
      </div>
      <ChartOfRudiments entries={[rudiment.id]} space={12} hands="under-notes" />
      <p>
        <Button onPress={() => round.hear()}>Hear it</Button>
      </p>
      {reports.map(({ by, report }) => (
        <SlipTable key={by} report={report} whose={of.length > 1 ? `${nameOf(by)}: ` : ""} />
      ))}
    </section>
  );
}

/** What was played is told by its report; after the program was opened again only whether it held is known. */
function wordsOf({ held, words, way }: StickingAsked, report: StickingReport | undefined): readonly string[] {
  if (way === "played" && report) return playedWords(report);
  if (held) return ["The hands held."];
  return [way === "played" ? words : `${words} It is as written here.`];
}

/** More are not read through. */
const MOST_SLIPS = 24;

function SlipTable({ report, whose }: { readonly report: StickingReport; readonly whose: string }) {
  const slips = slipsOf(report);
  if (slips.length === 0) return null;
  const from = report.strokes[0]?.time ?? 0;
  return (
    <table className={styles.looks}>
      <caption>{whose}Where the hands were not as written</caption>
      <thead>
        <tr>
          <th scope="col">seconds in</th>
          <th scope="col">time through</th>
          <th scope="col">written</th>
          <th scope="col">struck</th>
          <th scope="col">what</th>
        </tr>
      </thead>
      <tbody>
        {slips.slice(0, MOST_SLIPS).map(({ time, cycle, hand, expectedHand, state }) => (
          <tr key={`${time} ${state}`}>
            <td>{(time - from).toFixed(1)}</td>
            <td>{cycle ?? "–"}</td>
            <td>{expectedHand ?? "–"}</td>
            <td>{hand ?? "–"}</td>
            <td>{state}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
