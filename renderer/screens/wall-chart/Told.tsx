import { type ChartLook, chartList, curveOf } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { usePlayerName } from "../round/usePlayerName.ts";
import { allLooks, gainWords, looksTold, lookWords, namesOf, partWords, slipWords } from "./chartWords.ts";
import styles from "./WallChart.module.css";

/** The naming is over: what this look gained, the places that slipped, and all looks beside each other. */
export function Told() {
  const { framed } = useLesson();
  const { own } = useWatched(framed["wall-chart"]);
  const told = looksTold(own);
  const [only, another] = told;
  if (!only) return null;
  if (!another)
    return (
      <section aria-labelledby="told">
        <h2 id="told" className={styles.say}>
          {gainWords(only)[0]}
        </h2>
        <OneTold looks={only} says={gainWords(only).slice(1)} />
      </section>
    );
  return (
    <section aria-labelledby="told">
      <h2 id="told" className={styles.say}>
        Named.
      </h2>
      <div className={styles.players}>
        {told.map((looks) => (
          <OfPlayer key={looks[0]?.by ?? ""} looks={looks} />
        ))}
      </div>
    </section>
  );
}

function OfPlayer({ looks }: { readonly looks: readonly ChartLook[] }) {
  const nameOf = usePlayerName();
  return (
    <section>
      <h3>{nameOf(looks[0]?.by ?? null)}</h3>
      <OneTold looks={looks} says={gainWords(looks)} />
    </section>
  );
}

function OneTold({
  looks,
  says,
}: {
  readonly looks: readonly ChartLook[];
  readonly says: readonly string[];
}) {
  const last = looks.at(-1);
  if (!last) return null;
  const missing = chartList(last.settings).filter((id) => !last.named.includes(id));
  return (
    <>
      <div role="status">
        {[...says, ...slipWords(last)].map((line) => (
          <p key={line}>{line}</p>
        ))}
        {missing.length > 0 && <p className={styles.soft}>Not named: {namesOf(missing)}.</p>}
      </div>
      {looks.length > 1 && <LookTable looks={looks} />}
    </>
  );
}

/** Once the round is over: the looks of each player at each part of the chart, and what they gained. */
export function LookByLook() {
  const { framed } = useLesson();
  const { own, players } = useWatched(framed["wall-chart"]);
  const nameOf = usePlayerName();
  const all = allLooks(own);
  if (all.length === 0) return null;
  return (
    <section aria-labelledby="look-by-look">
      <h2 id="look-by-look">Look by look</h2>
      {all.map((looks) => {
        const [first] = looks;
        if (!first) return null;
        const whose = players.length > 1 || first.ofTeacher ? `${nameOf(first.by)}: ` : "";
        return (
          <LookTable
            key={`${first.by} ${first.ofTeacher} ${partWords(first.settings)}`}
            looks={looks}
            caption={`${whose}${partWords(first.settings)}`}
          />
        );
      })}
    </section>
  );
}

function LookTable({ looks, caption }: { readonly looks: readonly ChartLook[]; readonly caption?: string }) {
  const figures = curveOf(looks);
  const of = chartList(looks[0]?.settings ?? { task: "names", from: 1, to: 40 }).length;
  return (
    <table className={styles.looks}>
      {caption !== undefined && <caption>{caption}</caption>}
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
