/**
 * The kit as it lies before the player, left to right: what hangs or stands in front above, what lies under
 * the sticks and feet below. A struck voice fills, the harder the fuller, and fades slowly.
 */
import { Fragment, type ReactNode } from "react";
import { type Hit, type Voice, voiceName } from "../../../engine/kit/index.ts";
import { KEY_OF_VOICE, keyCap } from "../../players/keyboardPlayer.ts";
import styles from "./VoiceMarks.module.css";
import { filledShare, VoiceShape } from "./VoiceShape.tsx";

const ABOVE: readonly Voice[] = ["high-tom", "mid-tom", "floor-tom"];
const BELOW: readonly Voice[] = [
  "crash-left",
  "hi-hat-open",
  "hi-hat-closed",
  "snare",
  "cross-stick",
  "hi-hat-pedal",
  "kick",
  "ride",
  "bell",
  "crash-right",
];

/** The latest strike of each voice, with its place in the log. */
export type LatestOfVoice = ReadonlyMap<Voice, { readonly index: number; readonly hit: Hit }>;

export function VoiceMarks({
  left,
  right,
  latest,
  now,
}: {
  readonly latest: LatestOfVoice;
  readonly now: number | undefined;
  /** What stands in the free places left and right of the toms. */
  readonly left: ReactNode;
  readonly right: ReactNode;
}) {
  return (
    <div className={styles.kit}>
      <div className={styles.above}>
        <div className={styles.aside}>{left}</div>
        <ul className={styles.toms}>
          {ABOVE.map((voice) => (
            <VoiceMark key={voice} voice={voice} latest={latest} now={now} />
          ))}
        </ul>
        <div className={styles.aside}>{right}</div>
      </div>
      <ul className={styles.row}>
        {BELOW.map((voice) => (
          <VoiceMark key={voice} voice={voice} latest={latest} now={now} />
        ))}
      </ul>
    </div>
  );
}

function VoiceMark({
  voice,
  latest,
  now,
}: {
  readonly voice: Voice;
  readonly latest: LatestOfVoice;
  readonly now: number | undefined;
}) {
  const struck = latest.get(voice);
  const code = KEY_OF_VOICE[voice];
  const isLast = struck !== undefined && struck.index === now;
  return (
    <li className={styles.voice} data-voice={voice} data-last={isLast || undefined}>
      <svg className={styles.mark} viewBox="0 0 48 40" aria-hidden="true">
        <VoiceShape voice={voice} className={styles.open} scale={1} />
        {struck && (
          <g key={struck.index} className={styles.struck}>
            <VoiceShape voice={voice} className={styles.filled} scale={filledShare(struck.hit.velocity)} />
          </g>
        )}
      </svg>
      <span className={styles.name}>
        {voiceName(voice)
          .split(" ")
          .map((word, place) => (
            <Fragment key={word}>
              {place > 0 && " "}
              <span className={styles.word}>{word}</span>
            </Fragment>
          ))}
      </span>
      {code && <kbd>{keyCap(code)}</kbd>}
    </li>
  );
}
