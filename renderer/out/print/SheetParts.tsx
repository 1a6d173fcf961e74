/** What the pages have in common: whose they are, lines to write on, the caution at the foot. */
import type { ReactNode } from "react";
import styles from "./print.module.css";
import type { SheetHead } from "./sheet.ts";

/** Letters from which a title is set smaller: it would take two lines. */
const LONG_TITLE = 36;

/** CSS pixels of the ring: 66 mm. */
export const RING_PIXELS = 249;

/** One sheet of paper. */
export function Paper({ children }: { readonly children: ReactNode }) {
  return (
    <div className={styles.paper} data-print-page>
      {children}
    </div>
  );
}

export function SheetTop({
  head,
  kind,
  title,
  children,
}: {
  readonly head: SheetHead;
  /** "Practice page" */
  readonly kind: string;
  readonly title: string;
  /** The line under the title. */
  readonly children: ReactNode;
}) {
  return (
    <header className={styles.top}>
      <div className={styles.whose}>
        <Given label="Name" text={head.name} />
        <Given label="Date" text={head.day} />
      </div>
      <p className={styles.kind}>{kind}</p>
      <h1 className={title.length > LONG_TITLE ? styles.long : undefined}>{title}</h1>
      <p className={styles.under}>{children}</p>
    </header>
  );
}

function Given({ label, text }: { readonly label: string; readonly text: string }) {
  return (
    <p>
      {/* A space of its own keeps an empty line as high as a filled one. */}
      <span>{label}</span> <b>{text || "\u00a0"}</b>
    </p>
  );
}

/** More lines than any page has left: those that do not fit are cut off unseen. */
const LINES = Array.from({ length: 28 }, (_, line) => line);

/** Ruled lines that fill what is left of the page: borders, since browsers print no backgrounds unless told to. */
export function RoomToWrite({ heading }: { readonly heading: string }) {
  return (
    <section className={styles.room}>
      <h2>{heading}</h2>
      <div className={styles.ruled} data-room-to-write aria-hidden="true">
        <div>
          {LINES.map((line) => (
            <div key={line} />
          ))}
        </div>
      </div>
    </section>
  );
}

/** Strain and hearing, in one line. */
export function Caution() {
  return (
    <p className={styles.caution}>
      Warm up, and stop when it hurts. Play no louder than you can talk over, and rest every half hour.
    </p>
  );
}
