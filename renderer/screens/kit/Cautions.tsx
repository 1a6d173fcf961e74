import { Note } from "../../app/Page.tsx";

/**
 * Cautions where they apply. Source of the exposure figure: NIOSH, Criteria for a Recommended Standard:
 * Occupational Noise Exposure (1998): 85 dBA over eight hours, half the time for every 3 dB more.
 */
export function Cautions() {
  return (
    <>
      <Note heading="Hearing">
        <p>
          Keep the level at which you can still talk: 85 dBA is for eight hours, and every 3 dB more halves
          the time. Take breaks. Local rules and medical advice come first.
        </p>
      </Note>
      <Note heading="Strain">
        <p>Warm up. Stop when it hurts, and see a doctor if it does not pass.</p>
      </Note>
    </>
  );
}
