import { type ChartLook, chartList } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { usePlayerName } from "../round/usePlayerName.ts";
import {
  allLooks,
  gainWords,
  LOOK_COLUMNS,
  lookRows,
  looksTold,
  namesOf,
  partWords,
  slipWords,
} from "./chartWords.ts";
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

/** Look by look, what each gained. */
export function LookTable({
  looks,
  caption,
}: {
  readonly looks: readonly ChartLook[];
  readonly caption?: string;
}) {
  const of = chartList(looks[0]?.settings ?? { task: "names", from: 1, to: 40 }).length;
  return (
    <table className={styles.looks}>
      {caption !== undefined && <caption>{caption}</caption>}
      <thead>
        <tr>
          {LOOK_COLUMNS.map((column) => (
            <th key={column} scope="col">
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {lookRows(looks).map(([look, lasted, named, ...more]) => (
          <tr key={look}>
            <th scope="row">{look}</th>
            <td>{lasted}</td>
            <td>
              <span className={styles.bar} style={{ inlineSize: `${(Number(named) / of) * 8}rem` }} /> {named}
            </td>
            {more.map((cell, at) => (
              <td key={LOOK_COLUMNS[at + 3]}>{cell}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
