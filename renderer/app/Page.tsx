import { type ReactNode, useEffect, useRef } from "react";
import styles from "./Page.module.css";

/** A page of the book: the sheet with its title, and the margin beside it. */
export function Page({
  title,
  sub,
  margin,
  children,
  takesFocus = false,
  isWide = false,
}: {
  readonly title: string;
  /** What stands under the title; `null` where the content brings a heading of its own. */
  readonly sub: ReactNode;
  readonly margin: ReactNode;
  readonly children: ReactNode;
  /** True where the page replaces one whose controls are gone: reading goes on here. */
  readonly takesFocus?: boolean;
  /** True where the page needs the room of the margin as well, and has none. */
  readonly isWide?: boolean;
}) {
  const sheet = useRef<HTMLElement>(null);
  useEffect(() => {
    document.title = `${title}: Throneside`;
    if (takesFocus) sheet.current?.focus();
  }, [title, takesFocus]);
  return (
    <>
      <main ref={sheet} tabIndex={-1} className={isWide ? `${styles.sheet} ${styles.wide}` : styles.sheet}>
        {sub !== null && (
          <>
            <h1>{title}</h1>
            <div className={styles.sub}>{sub}</div>
          </>
        )}
        {children}
      </main>
      {!isWide && (
        <aside className={styles.margin} aria-label="Margin">
          {margin}
        </aside>
      )}
    </>
  );
}

/** A remark in the margin. */
export function Note({ heading, children }: { readonly heading: string; readonly children: ReactNode }) {
  return (
    <section className={styles.note}>
      <h2>{heading}</h2>
      {children}
    </section>
  );
}
