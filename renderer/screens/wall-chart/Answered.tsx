import { stickingOf } from "../../../engine/catalogue/index.ts";
import type { StickingReport } from "../../../engine/recall/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { ChartOfRudiments } from "./ChartOfRudiments.tsx";
import { playedWords, slipsOf } from "./playedWords.ts";
import styles from "./WallChart.module.css";

/** The hands of a rudiment were answered: how they are, and what was played. */
export function Answered() {
  const { framed } = useLesson();
  const round = framed["wall-chart"];
  const { own } = useWatched(round);
  const { report } = useWatched(round.beside);
  const rudiment = round.asked();
  const last = own.past.at(-1);
  if (!rudiment || last?.kind !== "sticking") return null;
  const { held, words, way } = last.asked;
  return (
    <section aria-labelledby="answered">
      <h2 id="answered" className={styles.say}>
        {rudiment.name}: {stickingOf(rudiment)}
      </h2>
      <div role="status">
        {way !== "played" && <p>{held ? "The hands held." : `${words} It is as written here.`}</p>}
        {way === "played" && report && playedWords(report).map((line) => <p key={line}>{line}</p>)}
      </div>
      <ChartOfRudiments entries={[rudiment.id]} space={12} hands="under-notes" />
      <p>
        <Button onPress={() => round.hear()}>Hear it</Button>
      </p>
      {way === "played" && report && <SlipTable report={report} />}
    </section>
  );
}

/** More are not read through. */
const MOST_SLIPS = 24;

function SlipTable({ report }: { readonly report: StickingReport }) {
  const slips = slipsOf(report);
  if (slips.length === 0) return null;
  const from = report.strokes[0]?.time ?? 0;
  return (
    <table className={styles.looks}>
      <caption>Where the hands were not as written</caption>
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
