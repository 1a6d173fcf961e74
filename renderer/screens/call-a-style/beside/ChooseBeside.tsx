import type { Ref } from "react";
import { Choice } from "../../../theme/index.ts";
import styles from "./ChooseBeside.module.css";

const NONE = "none";

export interface ChooseBesideProps {
  readonly heading: string;
  /** Where one is led to the heading from elsewhere on the page. */
  readonly headingRef?: Ref<HTMLHeadingElement>;
  readonly others: readonly { readonly id: string; readonly name: string }[];
  /** `null`: none is laid beside it. */
  readonly chosen: string | null;
  readonly onChoose: (id: string | null) => void;
}

/** Which other take is laid beside this one; B lays the next. */
export function ChooseBeside({ heading, headingRef, others, chosen, onChoose }: ChooseBesideProps) {
  return (
    <div className={styles.head}>
      <h2 ref={headingRef} tabIndex={headingRef ? -1 : undefined} aria-live="polite">
        {heading}
      </h2>
      <div className={styles.choice}>
        <Choice
          label="Laid beside this take"
          options={[...others, { id: NONE, name: "no other take" }]}
          chosen={chosen ?? NONE}
          onChoose={(id) => onChoose(id === NONE ? null : id)}
        />
        <kbd>B</kbd>
      </div>
    </div>
  );
}
