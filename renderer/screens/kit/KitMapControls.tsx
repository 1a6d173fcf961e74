import type { HeardKit } from "../../session/heardKit.ts";
import { SHIPPED_MAPS } from "../../session/kitMapChoice.ts";
import { useWatched } from "../../session/store.ts";
import { Choice } from "../../theme/index.ts";
import styles from "./Kit.module.css";

/** Which map says what each key of a kit is. */
export function KitMapControls({ kit: { kitMap } }: { readonly kit: HeardKit }) {
  const { map, learnt, trouble } = useWatched(kitMap);
  return (
    <>
      <div className={styles.choice}>
        <Choice
          label="Kit map"
          options={learnt ? [...SHIPPED_MAPS, learnt] : SHIPPED_MAPS}
          chosen={map.id}
          onChoose={(id) => kitMap.choose(id)}
        />
      </div>
      {trouble !== undefined && (
        <p role="alert" className={styles.trouble}>
          {trouble}
        </p>
      )}
    </>
  );
}
