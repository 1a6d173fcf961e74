import { type CSSProperties, type KeyboardEvent, useId, useMemo, useRef, useState } from "react";
import {
  cycled,
  placesInABeat,
  placesOfBar,
  strokeAt,
  withDynamic,
  withOneMoreBar,
  withOrnament,
  withoutLastBar,
  withVoice,
} from "../../../engine/catalogue/index.ts";
import { VOICES, type Voice, voiceName } from "../../../engine/kit/index.ts";
import { beatsPerBar, type Groove, type Note } from "../../../engine/score/index.ts";
import type { Fraction } from "../../../engine/units/index.ts";
import { Button, Choice } from "../../theme/index.ts";
import { placeName, strokeWords } from "./placeWords.ts";
import styles from "./StrokeGrid.module.css";

const CHOICES = VOICES.filter((voice) => voice !== "unknown").map((id) => ({ id, name: voiceName(id) }));

/**
 * One bar as a grid of voices and places, under the staff: a press goes from silence to plain, accent, ghost and
 * back. Arrows move; letters set a stroke at once.
 */
export function StrokeGrid({
  groove,
  isDisabled,
  onChange,
}: {
  readonly groove: Groove;
  /** While the text cannot be read, strokes cannot be set. */
  readonly isDisabled: boolean;
  readonly onChange: (change: (groove: Groove) => Groove) => void;
}) {
  const [asked, setBar] = useState(0);
  const bar = Math.min(asked, groove.bars - 1);
  const perBeat = placesInABeat(groove);
  return (
    <section className={styles.grid} aria-label="Stroke by stroke">
      <div className={styles.head}>
        <h2>Stroke by stroke</h2>
        {groove.bars > 1 && <WhichBar bar={bar} bars={groove.bars} onBar={setBar} />}
      </div>
      {perBeat === undefined ? (
        <p>
          Its strokes stand on finer places than can be pressed one by one. Change them in the text below.
        </p>
      ) : (
        <Bar
          groove={groove}
          bar={bar}
          perBeat={perBeat}
          isDisabled={isDisabled}
          onChange={onChange}
          onBar={setBar}
        />
      )}
      <div className={styles.more}>
        <div className={styles.voice}>
          <Choice
            label="One more voice"
            options={CHOICES.filter(({ id }) => !groove.voices.includes(id))}
            chosen={null}
            onChoose={(voice) => onChange((bars) => withVoice(bars, voice))}
          />
        </div>
        <Button
          weight="quiet"
          isDisabled={isDisabled}
          onPress={() => {
            onChange(withOneMoreBar);
            setBar(groove.bars);
          }}
        >
          One more bar
        </Button>
        <Button
          weight="quiet"
          isDisabled={isDisabled || groove.bars === 1}
          onPress={() => onChange(withoutLastBar)}
        >
          One bar fewer
        </Button>
        <p className={styles.keys}>
          A press: plain, accent, ghost, nothing. Or <kbd>x</kbd> plain, <kbd>a</kbd> accent, <kbd>g</kbd>{" "}
          ghost, <kbd>f</kbd> flam, <kbd>d</kbd> drag, <kbd>Del</kbd> nothing.
        </p>
      </div>
    </section>
  );
}

function WhichBar({
  bar,
  bars,
  onBar,
}: {
  readonly bar: number;
  readonly bars: number;
  readonly onBar: (bar: number) => void;
}) {
  return (
    <div className={styles.bars}>
      <Button weight="quiet" isDisabled={bar === 0} onPress={() => onBar(bar - 1)}>
        Bar before
      </Button>
      <span aria-live="polite">
        bar {bar + 1} of {bars}
      </span>
      <Button weight="quiet" isDisabled={bar === bars - 1} onPress={() => onBar(bar + 1)}>
        Bar after
      </Button>
    </div>
  );
}

interface BarProps {
  readonly groove: Groove;
  readonly bar: number;
  readonly perBeat: number;
  readonly isDisabled: boolean;
  readonly onChange: (change: (groove: Groove) => Groove) => void;
  readonly onBar: (bar: number) => void;
}

function Bar({ groove, bar, perBeat, isDisabled, onChange, onBar }: BarProps) {
  const places = useMemo(() => placesOfBar(groove, bar, perBeat), [groove, bar, perBeat]);
  const [focused, setFocused] = useState({ row: 0, column: 0 });
  const grid = useRef<HTMLTableElement>(null);
  const hint = useId();
  const row = Math.min(focused.row, groove.voices.length - 1);
  const column = Math.min(focused.column, places.length - 1);

  const go = (to: { readonly row: number; readonly column: number }): void => {
    setFocused(to);
    grid.current?.querySelector<HTMLElement>(`[data-place="${to.row} ${to.column}"]`)?.focus();
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const voice = groove.voices[row];
    const position = places[column];
    if (!voice || !position) return;
    const last = { row: groove.voices.length - 1, column: places.length - 1 };
    const move = moveOf(event.key, { row, column }, last);
    const change = changeOf(event.key, { voice, position });
    if (event.key === "PageUp") onBar(Math.max(0, bar - 1));
    else if (event.key === "PageDown") onBar(Math.min(groove.bars - 1, bar + 1));
    else if (move) go(move);
    else if (change && !isDisabled) onChange(change);
    else return;
    event.preventDefault();
  };

  return (
    <table
      ref={grid}
      className={styles.cells}
      // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: the grid pattern of WAI-ARIA, on a table.
      role="grid"
      aria-label={`Bar ${bar + 1}`}
      aria-describedby={hint}
      style={{ "--places": places.length } as CSSProperties}
      onKeyDown={onKeyDown}
    >
      <caption id={hint} className="heard-only">
        Arrows move. A press goes from nothing to plain, accent, ghost and back.
      </caption>
      <tbody>
        {groove.voices.map((voice, atRow) => (
          <tr key={voice} className={styles.row}>
            <th className={styles.label} scope="row">
              {voiceName(voice)}
            </th>
            {places.map((position, atColumn) => (
              <Cell
                key={`${position.num}/${position.den}`}
                voice={voice}
                position={position}
                note={strokeAt(groove, { voice, position })}
                perBeat={perBeat}
                beats={beatsPerBar(groove.metre)}
                at={{ row: atRow, column: atColumn }}
                isEntry={atRow === row && atColumn === column}
                isDisabled={isDisabled}
                onFocus={() => setFocused({ row: atRow, column: atColumn })}
                onPress={() => onChange((bars) => cycled(bars, { voice, position }))}
              />
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Cell({
  voice,
  position,
  note,
  perBeat,
  beats,
  at,
  isEntry,
  isDisabled,
  onFocus,
  onPress,
}: {
  readonly voice: Voice;
  readonly position: Fraction;
  readonly note: Note | undefined;
  readonly perBeat: number;
  readonly beats: number;
  readonly at: { readonly row: number; readonly column: number };
  readonly isEntry: boolean;
  readonly isDisabled: boolean;
  readonly onFocus: () => void;
  readonly onPress: () => void;
}) {
  return (
    <td className={styles.cell} data-on-beat={at.column % perBeat === 0 ? "" : undefined}>
      <button
        type="button"
        data-place={`${at.row} ${at.column}`}
        tabIndex={isEntry ? 0 : -1}
        aria-label={`${voiceName(voice)}, ${placeName(position, beats)}, ${strokeWords(note)}`}
        aria-disabled={isDisabled || undefined}
        onFocus={onFocus}
        onClick={isDisabled ? undefined : onPress}
      >
        <Mark note={note} />
      </button>
    </td>
  );
}

/** As on the ring: an open circle, smaller for a ghost, with a second one inside for an accent. */
function Mark({ note }: { readonly note: Note | undefined }) {
  return (
    <svg viewBox="-22 -22 44 44" aria-hidden="true">
      <line className={styles.line} x1={-22} x2={22} y1={0} y2={0} />
      {note && <circle className={styles.stroke} r={note.dynamic === "ghost" ? 5 : 10} />}
      {note?.dynamic === "accent" && <circle className={styles.inner} r={5} />}
      {note?.ornament !== undefined && <circle className={styles.grace} r={2.6} cx={-15} cy={-10} />}
      {note?.ornament === "drag" && <circle className={styles.grace} r={2.6} cx={-15} cy={-2} />}
    </svg>
  );
}

function moveOf(
  key: string,
  { row, column }: { readonly row: number; readonly column: number },
  last: { readonly row: number; readonly column: number },
) {
  switch (key) {
    case "ArrowRight":
      return { row, column: Math.min(last.column, column + 1) };
    case "ArrowLeft":
      return { row, column: Math.max(0, column - 1) };
    case "ArrowDown":
      return { row: Math.min(last.row, row + 1), column };
    case "ArrowUp":
      return { row: Math.max(0, row - 1), column };
    case "Home":
      return { row, column: 0 };
    case "End":
      return { row, column: last.column };
    default:
      return undefined;
  }
}

function changeOf(
  key: string,
  place: { readonly voice: Voice; readonly position: Fraction },
): ((groove: Groove) => Groove) | undefined {
  switch (key) {
    case "x":
      return (groove) => withDynamic(groove, place, "plain");
    case "a":
      return (groove) => withDynamic(groove, place, "accent");
    case "g":
      return (groove) => withDynamic(groove, place, "ghost");
    case "f":
      return (groove) => withOrnament(groove, place, "flam");
    case "d":
      return (groove) => withOrnament(groove, place, "drag");
    case "Delete":
    case "Backspace":
    case ".":
      return (groove) => withDynamic(groove, place, null);
    default:
      return undefined;
  }
}
