import styles from "./CallAStyle.module.css";

/** The place of the bar ring while there is nothing to put on it. */
export function EmptyRing({ size }: { readonly size: number }) {
  return (
    <svg className={styles.empty} viewBox="0 0 300 300" width={size} height={size} aria-hidden="true">
      <circle cx="150" cy="150" r="116" />
      <path d="M150 19v44" />
    </svg>
  );
}
