import { useId } from "react";
import type { Draft } from "./draft.ts";
import styles from "./Shelf.module.css";

/** The grid text, with what is wrong in it said while it is typed. */
export function TextEditor({
  draft,
  onType,
}: {
  readonly draft: Draft;
  readonly onType: (body: string) => void;
}) {
  const text = useId();
  const isPart = draft.kind === "part";
  const problem = useId();
  const { body } = draft.now;
  return (
    <div className={styles.field}>
      <h2>
        <label htmlFor={text}>As text</label>
      </h2>
      <textarea
        id={text}
        className={styles.grid}
        rows={Math.min(24, Math.max(8, body.split("\n").length + 1))}
        wrap="off"
        spellCheck={false}
        autoComplete="off"
        value={body}
        aria-invalid={draft.problem !== null}
        aria-describedby={problem}
        onChange={(event) => onType(event.target.value)}
      />
      <p
        id={problem}
        role="status"
        className={styles.problem}
        data-is={draft.problem === null ? "right" : "wrong"}
      >
        {draft.problem?.words ??
          (isPart
            ? "Sections with their tempo and what they play; below them the grooves and fills they name."
            : "x plain, X accent, g ghost, f flam, d drag, . silence; bars between bar lines, as many marks as you like in each.")}
      </p>
    </div>
  );
}
