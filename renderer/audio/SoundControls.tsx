import {
  Label,
  Radio,
  RadioGroup,
  Slider,
  SliderOutput,
  SliderThumb,
  SliderTrack,
} from "react-aria-components";
import { useProgram } from "../app/ProgramContext.tsx";
import { useWatched } from "../session/store.ts";
import { Toggle } from "../theme/index.ts";
import { HearingNote } from "./HearingNote.tsx";
import styles from "./SoundControls.module.css";
import { HEARD_BY, type HeardBy } from "./soundChoice.ts";
import { VOLUME_STEPS, volumeWords } from "./volume.ts";

const HEARD_BY_NAMES: Readonly<Record<HeardBy, string>> = {
  speakers: "Loudspeakers",
  headphones: "Headphones",
};

/** How loud the program is, what it is heard through, and whether it sounds the kit. */
export function SoundControls() {
  const { sound } = useProgram();
  const { volume, heardBy, isHearingNoteDue, kitIsSilent, drumsOn } = useWatched(sound);
  return (
    <section className={styles.controls} aria-label="Sound">
      <h2>Sound</h2>
      <Slider
        className={styles.volume ?? ""}
        value={volume}
        minValue={0}
        maxValue={VOLUME_STEPS}
        step={1}
        onChange={(step) => sound.setVolume(step)}
      >
        <Label className={styles.label ?? ""}>Volume</Label>
        <SliderOutput className={styles.words ?? ""}>
          {volume} of {VOLUME_STEPS}, {volumeWords(volume)}
        </SliderOutput>
        <SliderTrack className={styles.track ?? ""}>
          <span className={styles.filled} style={{ width: `${(volume / VOLUME_STEPS) * 100}%` }} />
          <SliderThumb className={styles.thumb ?? ""} />
        </SliderTrack>
      </Slider>
      <RadioGroup
        className={styles.heardBy ?? ""}
        value={heardBy}
        onChange={(chosen) => {
          const through = HEARD_BY.find((each) => each === chosen);
          if (through) sound.hearBy(through);
        }}
      >
        <Label className={styles.label ?? ""}>Heard through</Label>
        {HEARD_BY.map((through) => (
          <Radio key={through} value={through} className={styles.radio ?? ""}>
            <span className={styles.dot} aria-hidden="true" />
            {HEARD_BY_NAMES[through]}
          </Radio>
        ))}
      </RadioGroup>
      {isHearingNoteDue && <HearingNote onRead={() => sound.hearingNoteRead()} />}
      <Toggle isOn={kitIsSilent && drumsOn} onChange={(isOn) => void sound.setKitIsSilent(isOn)}>
        Sound the kit’s strokes, too, for a kit with no module
      </Toggle>
    </section>
  );
}
