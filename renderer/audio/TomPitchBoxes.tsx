import { Note } from "../app/Page.tsx";
import { useProgram } from "../app/ProgramContext.tsx";
import { useWatched } from "../session/store.ts";
import { Button, Choice } from "../theme/index.ts";
import { HIGHEST_TOM, LOWEST_TOM, onePitchWords, pitchName, TOMS, type Tom, tomSound } from "./tomPitches.ts";

const NAMES: Readonly<Record<Tom, string>> = {
  "high-tom": "High tom",
  "mid-tom": "Mid tom",
  "floor-tom": "Floor tom",
};
const PITCHES = Array.from({ length: HIGHEST_TOM - LOWEST_TOM + 1 }, (_, index) => LOWEST_TOM + index);
const OPTIONS = PITCHES.map((pitch) => ({ id: String(pitch), name: pitchName(pitch) }));
/** From one tom to the next when they are heard. */
const APART_SECONDS = 0.7;

/** The pitches of the studio's own toms: chosen by ear. */
export function TomPitchBoxes() {
  const { toms, sound } = useProgram();
  const pitches = useWatched(toms);
  const trouble = onePitchWords(pitches);
  const hear = (): void => {
    sound.playStrokes(
      TOMS.map((tom, place) => ({
        time: place * APART_SECONDS,
        voice: tom,
        velocity: 0.7,
        ...tomSound(pitches[tom]),
      })),
      { isTrueToPitch: true },
    );
  };
  return (
    <Note heading="Toms of this studio">
      <p>How the toms sound in Back Turned.</p>
      {TOMS.map((tom) => (
        <Choice
          key={tom}
          label={NAMES[tom]}
          options={OPTIONS}
          chosen={String(pitches[tom])}
          onChoose={(pitch) => toms.set(tom, Number(pitch))}
        />
      ))}
      {trouble !== null && <p role="status">{trouble}</p>}
      <Button weight="quiet" onPress={hear}>
        Hear the three
      </Button>
    </Note>
  );
}
