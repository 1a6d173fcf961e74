import { Choice, Toggle } from "../../theme/index.ts";
import type { LaneSeen } from "./lanes.ts";
import styles from "./replay.module.css";

/** Which kit is walked along, and whether it alone is heard. */
export function ChooseKit({
  lanes,
  lane,
  onChoose,
  isAlone,
  onAlone,
}: {
  readonly lanes: readonly LaneSeen[];
  readonly lane: number;
  readonly onChoose: (lane: number) => void;
  readonly isAlone: boolean;
  readonly onAlone: (isAlone: boolean) => void;
}) {
  return (
    <div className={styles.kits}>
      <Choice
        label="Kit"
        options={lanes.map((each) => ({ id: String(each.lane), name: each.name }))}
        chosen={String(lane)}
        onChoose={(id) => onChoose(Number(id))}
      />
      <Toggle isOn={isAlone} onChange={onAlone}>
        Hear it alone
      </Toggle>
    </div>
  );
}
