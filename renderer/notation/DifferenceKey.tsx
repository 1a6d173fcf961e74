import type { DifferenceKind } from "../../engraving/index.ts";
import engraved from "./Engraved.module.css";
import styles from "./Staff.module.css";

const WORDS: Readonly<Record<DifferenceKind, string>> = {
  "left-out": "left out",
  added: "added",
  "other-sound": "other sound: the ring is the written one",
  ahead: "ahead",
  behind: "behind",
};
const ORDER: readonly DifferenceKind[] = ["left-out", "added", "other-sound", "ahead", "behind"];

/** What the shapes on a heard staff mean; only those that are there. */
export function DifferenceKey({ kinds }: { readonly kinds: readonly DifferenceKind[] }) {
  const shown = ORDER.filter((kind) => kinds.includes(kind));
  if (shown.length === 0) return <p className={styles.key}>As written, every stroke.</p>;
  return (
    <ul className={styles.key}>
      {shown.map((kind) => (
        <li key={kind}>
          <svg width="22" height="22" viewBox="-11 -11 22 22" aria-hidden="true">
            <Sign kind={kind} />
          </svg>
          {WORDS[kind]}
        </li>
      ))}
    </ul>
  );
}

const RING = { r: 6, strokeWidth: 1.4, strokeDasharray: "1.6 2.4" } as const;

function Sign({ kind }: { readonly kind: DifferenceKind }) {
  switch (kind) {
    case "left-out":
      return <circle className={engraved.markStroke} {...RING} />;
    case "added":
      return (
        <>
          <ellipse className={engraved.inkFill} rx="5" ry="3.8" transform="rotate(-20)" />
          <rect className={engraved.markStroke} x="-8.5" y="-8.5" width="17" height="17" strokeWidth="1.4" />
        </>
      );
    case "other-sound":
      return (
        <>
          <ellipse className={engraved.inkFill} rx="4" ry="3" cy="7" transform="rotate(-20 0 7)" />
          <circle className={engraved.markStroke} {...RING} r="4.5" cy="-6" />
          <path className={engraved.markStroke} d="M0 -1.5V5" strokeWidth="1.2" />
        </>
      );
    case "ahead":
      return <path className={engraved.markFill} d="M-5 0L4 -4.5V4.5Z" />;
    case "behind":
      return <path className={engraved.markFill} d="M5 0L-4 -4.5V4.5Z" />;
  }
}
