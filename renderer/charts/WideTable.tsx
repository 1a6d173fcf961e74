/** A table that may be wider than an enlarged page: it moves sideways by itself, with the arrow keys too. */
import { type ReactNode, useEffect, useRef, useState } from "react";
import styles from "./charts.module.css";

export function WideTable({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  const box = useRef<HTMLElement>(null);
  const [isCut, setIsCut] = useState(false);
  useEffect(() => {
    const { current } = box;
    if (!current) return;
    const look = (): void => setIsCut(current.scrollWidth > current.clientWidth);
    const watch = new ResizeObserver(look);
    watch.observe(current);
    look();
    return () => watch.disconnect();
  }, []);
  return (
    // Only what can be moved needs to be reached by the keyboard, and a name.
    <section
      ref={box}
      className={styles.wide}
      aria-label={isCut ? label : undefined}
      tabIndex={isCut ? 0 : undefined}
    >
      {children}
    </section>
  );
}
