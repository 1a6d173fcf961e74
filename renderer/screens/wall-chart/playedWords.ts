/** What a sticking that was played was like, in sentences, the most telling first. */
import type { StickingReport, TempoCourse } from "../../../engine/recall/index.ts";

/** It held when no more than one stroke in twenty slipped. Our choice. */
const MOST_SLIPS = 0.05;
/** A second stroke of a double is told when it is weaker than this share of the first. Our choice. */
const WEAK_SECOND = 0.8;

const TEMPO_WORDS: Readonly<Record<TempoCourse["shape"], string>> = {
  held: "The tempo was held",
  "open-closed": "It went from open to closed",
  "closed-open": "It went from closed to open",
  "open-closed-open": "It went open, closed, open",
};

/** Strokes that were not as written: by the other hand, left out, added. */
export function slipsOf({ strokes }: Pick<StickingReport, "strokes">): StickingReport["strokes"] {
  return strokes.filter(({ state }) => state !== "as written" && state !== "bounce");
}

export function playedHeld(report: Pick<StickingReport, "strokes">): boolean {
  return slipsOf(report).length <= report.strokes.length * MOST_SLIPS;
}

export function playedWords(report: StickingReport): readonly string[] {
  const { evenness, accents, graces, secondStrokes, tempo } = report;
  const ms = (value: number) => `${Math.round(Math.abs(value))} ms`;
  const said: (string | null)[] = [handWords(report)];
  if (evenness.leftLaterMs !== null && evenness.leftIsHeard)
    said.push(
      `The left hand comes ${ms(evenness.leftLaterMs)} ${evenness.leftLaterMs > 0 ? "later" : "sooner"} than the right.`,
    );
  if (evenness.spreadMs !== null)
    said.push(`From stroke to stroke the intervals spread by ${ms(evenness.spreadMs)}.`);
  if (accents) {
    const elsewhere = accents.elsewhere > 0 ? `, and ${accents.elsewhere} where none is written` : "";
    said.push(`${accents.heard} of ${accents.written} accents were heard${elsewhere}.`);
  }
  if (graces?.gapMs != null) {
    const off = [
      ...(graces.tooTight > 0 ? [`${graces.tooTight} too tight`] : []),
      ...(graces.tooOpen > 0 ? [`${graces.tooOpen} too open`] : []),
      ...(graces.missing > 0 ? [`${graces.missing} without grace strokes`] : []),
    ];
    said.push(
      `Grace strokes stand ${ms(graces.gapMs)} ahead${off.length > 0 ? `: ${off.join(", ")} of ${graces.count + graces.missing}` : ""}.`,
    );
  }
  for (const [hand, name] of [
    ["R", "right"],
    ["L", "left"],
  ] as const) {
    const strength = secondStrokes?.strength[hand];
    if (strength != null && strength < WEAK_SECOND)
      said.push(`The second stroke of the ${name} hand’s doubles is weaker than the first.`);
  }
  if (tempo)
    said.push(
      `${TEMPO_WORDS[tempo.shape]}: ${Math.round(tempo.startBpm)} at first, ${Math.round(tempo.fastestBpm)} at its fastest, ${Math.round(tempo.endBpm)} at the end.`,
    );
  return said.filter((each) => each !== null);
}

function handWords({ strokes, mirrored }: StickingReport): string {
  const count = (state: StickingReport["strokes"][number]["state"]) =>
    strokes.filter((stroke) => stroke.state === state).length;
  const told = [
    ...(count("other hand") > 0 ? [`${count("other hand")} by the other hand`] : []),
    ...(count("left out") > 0 ? [`${count("left out")} left out`] : []),
    ...(count("added") > 0 ? [`${count("added")} added`] : []),
  ];
  const begun = mirrored ? " It was begun with the other hand." : "";
  const all = strokes.filter(({ expectedHand }) => expectedHand !== null).length;
  return told.length === 0
    ? `All ${all} strokes were by the hand written.${begun}`
    : `Of ${all} strokes ${told.join(", ")}.${begun}`;
}
