import { type ChartLook, chartList, curveOf } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { gainWords, looksTold, lookWords, namesOf, slipWords } from "./chartWords.ts";
import styles from "./WallChart.module.css";

/** The naming is over: what this look gained, the places that slipped, and all looks beside each other. */
export function Told({ isWhole = false }: { readonly isWhole?: boolean }) {
  const { framed } = useLesson();
  const { own } = useWatched(framed["wall-chart"]);
  const looks = looksTold(own);
  const last = looks.at(-1);
  if (!last) return null;
  const missing = chartList(last.settings).filter((id) => !last.named.includes(id));
  return (
    <section aria-labelledby="told">
      <h2 id="told" className={isWhole ? undefined : styles.say}>
        {isWhole ? "Look by look" : gainWords(looks)[0]}
      </h2>
      <div role={isWhole ? undefined : "status"}>
        {gainWords(looks)
          .slice(1)
          .map((line) => (
            <p key={line}>{line}</p>
          ))}
        {slipWords(last).map((line) => (
          <p key={line}>{line}</p>
        ))}
        {!isWhole && missing.length > 0 && <p className={styles.soft}>Not named: {namesOf(missing)}.</p>}
      </div>
      {(looks.length > 1 || isWhole) && <LookTable looks={looks} />}
    </section>
  );
}

function LookTable({ looks }: { readonly looks: readonly ChartLook[] }) {
  const figures = curveOf(looks);
  const of = chartList(looks[0]?.settings ?? { task: "names", from: 1, to: 40 }).length;
  return (
    <table className={styles.looks}>
      <thead>
        <tr>
          <th scope="col">look</th>
          <th scope="col">lasted</th>
          <th scope="col">named</th>
          <th scope="col">not named before</th>
          <th scope="col">named so far</th>
        </tr>
      </thead>
      <tbody>
        {figures.map(({ count, gained, soFar }, at) => (
          <tr key={at}>
            <th scope="row">{at + 1}</th>
            <td>{lookWords(looks[at]?.seconds ?? 0)}</td>
            <td>
              <span className={styles.bar} style={{ inlineSize: `${(count / of) * 8}rem` }} /> {count}
            </td>
            <td>{gained.length}</td>
            <td>
              {soFar} of {of}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
