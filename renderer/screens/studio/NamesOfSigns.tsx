import type { Naming } from "../../../engine/catalogue/index.ts";
import { useProgram } from "../../app/ProgramContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Choice } from "../../theme/index.ts";

const USAGES: readonly { readonly id: Naming; readonly name: string }[] = [
  { id: "us", name: "United States: quarter note" },
  { id: "uk", name: "United Kingdom: crotchet" },
];

/** Which names of note values and signs are shown, on cards and in lists. */
export function NamesOfSigns() {
  const { cards } = useProgram();
  const { naming, trouble } = useWatched(cards);
  return (
    <section>
      <h2>Names of notes</h2>
      <p>Which are shown, at the Card Table and in lists. Either is understood as an answer.</p>
      <Choice
        label="Names as in the"
        options={USAGES}
        chosen={naming}
        onChoose={(to) => cards.set({ naming: to })}
      />
      {trouble !== undefined && <p role="alert">{trouble}</p>}
    </section>
  );
}
