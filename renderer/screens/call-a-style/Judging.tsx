import { Page } from "../../app/Page.tsx";
import styles from "./CallAStyle.module.css";

/** Between stop and report. A short take passes it before anything is shown. */
export function Judging({ hitCount }: { readonly hitCount: number }) {
  return (
    <Page title="Thinking it over" sub={`${hitCount} strokes.`} takesFocus margin={null}>
      <div className={styles.thinking} role="status">
        <progress aria-label="Thinking the take over" />
      </div>
    </Page>
  );
}
