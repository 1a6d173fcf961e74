/** This take beside an earlier one of the same groove: what changed in words, lean and spread by beat, voices. */
import type { Beside } from "../../../../engine/rounds/index.ts";
import { useReportKey } from "../useReportKey.ts";
import styles from "./beside.module.css";
import { ChooseBeside } from "./ChooseBeside.tsx";
import { ComparedTakes } from "./ComparedTakes.tsx";
import { nextBeside, type TakesBeside, takeInShort, takeName } from "./takesBeside.ts";

export interface BesideTakeProps {
  readonly takes: TakesBeside;
  readonly onChoose: (beside: Beside) => void;
}

export function BesideTake({ takes, onChoose }: BesideTakeProps) {
  const { now, others, chosen } = takes;
  useReportKey("KeyB", () => onChoose(nextBeside(takes)));
  return (
    <section className={styles.beside}>
      <ChooseBeside
        heading={headingWords(takes)}
        others={others.map((take) => ({ id: String(take.number), name: takeInShort(take) }))}
        chosen={chosen ? String(chosen.number) : null}
        onChoose={(id) => onChoose(id === null ? "none" : Number(id))}
      />
      {chosen && (
        <ComparedTakes
          before={{ take: chosen, name: takeName(chosen) }}
          now={{ take: now, name: "this take" }}
        />
      )}
    </section>
  );
}

function headingWords({ others, chosen }: TakesBeside): string {
  if (!chosen) return "Beside another take";
  return chosen === others[0] ? "Beside the take before" : `Beside ${takeName(chosen)}`;
}
