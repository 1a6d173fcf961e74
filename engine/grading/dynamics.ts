/**
 * Question: do accents stand out and ghost notes stay low, within the player's own range?
 *
 * Method: on each voice the player's own plain stroke is the median of the strokes written plain. An accent stands
 * out when it is louder than nine in ten of those plain strokes and by what can be heard; a ghost note is one that
 * stays well below the plain stroke. Shares of the plain stroke are our choice (see each), quantiles keep a few
 * mishits from moving them.
 */
import type { Dynamic } from "../score/index.ts";
import type { Velocity } from "../units/index.ts";
import { grouped } from "./grouped.ts";
import { placeOnPage } from "./limb.ts";
import type { Matched, Stroke } from "./matching.ts";
import type { DynamicsFigures } from "./report.ts";
import type { Target, TargetNote } from "./target.ts";
import { GHOST_HEAVY_ABOVE, GHOSTED_BELOW, PLAIN_HEAVY_ABOVE, plainStroke } from "./voices.ts";

/** Fewer strokes do not show a range. Our choice. */
const FEWEST_FOR_RANGE = 5;
/** Fewer plain strokes do not show how far they scatter; then only the share below counts. Our choice. */
const FEWEST_FOR_SCATTER = 5;
/**
 * A written accent is louder than the plain stroke by at least this share: 2.4 dB where sound grows with the square of
 * the velocity, as many sound modules have it, and well above the 1 dB that is just heard. Our choice.
 */
export const ACCENT_ABOVE = 1.15;

/** One row for every written voice that was answered on itself, in the order they appear. */
export function dynamicsFigures(
  matched: Matched,
  counted: readonly TargetNote[],
  target: Target,
): readonly DynamicsFigures[] {
  const onVoice = grouped(
    matched.strokes.filter(({ note, hit }) => note.voice === hit.voice),
    ({ note }) => note.voice,
  );
  const extras = grouped(
    matched.hits.filter((judged) => judged.state === "extra" && !judged.surplus),
    ({ hit }) => hit.voice,
  );
  const ghostsOf = grouped(
    counted.filter(({ dynamic }) => dynamic === "ghost"),
    ({ voice }) => voice,
  );
  const answeredOf = grouped(
    matched.strokes.filter(({ note }) => note.dynamic === "ghost"),
    ({ note }) => note.voice,
  );
  return [...onVoice].map(([voice, strokes]): DynamicsFigures => {
    const added = (extras.get(voice) ?? []).map(({ hit }) => hit.velocity);
    const ghostsWritten = ghostsOf.get(voice)?.length ?? 0;
    const range = rangeOf([...strokes.map(({ hit }) => hit.velocity), ...added]);
    const plain = plainStroke(strokes);
    // A kit that sends one and the same strength for every stroke says nothing of touch.
    const tellsStrength = range === null || range.loud > range.soft;
    if (plain === undefined || !tellsStrength)
      return { voice, range, plain: null, accents: null, ghosts: null, where: [] };
    const heardAs = heardDynamic(strokes, plain);
    const written = (dynamic: Dynamic) => strokes.filter(({ note }) => note.dynamic === dynamic);
    const accents = written("accent");
    const ghosts = written("ghost");
    const asGhosts = ghosts.filter((stroke) => heardAs(stroke) === "ghost").length;
    return {
      voice,
      range,
      plain,
      accents: {
        written: accents.length,
        standOut: accents.filter((stroke) => heardAs(stroke) === "accent").length,
        unwritten: strokes.filter(
          (stroke) => stroke.note.dynamic !== "accent" && heardAs(stroke) === "accent",
        ).length,
      },
      ghosts: {
        written: ghostsWritten,
        asGhosts,
        tooLoud: ghosts.length - asGhosts,
        leftOut: ghostsWritten - (answeredOf.get(voice)?.length ?? 0),
        added: added.filter((velocity) => velocity < GHOSTED_BELOW * plain).length,
      },
      where: strokes.flatMap((stroke) => {
        const heard = heardAs(stroke);
        const { note } = stroke;
        return heard === note.dynamic
          ? []
          : [{ targetIndex: note.index, ...placeOnPage(target, note.beat), written: note.dynamic, heard }];
      }),
    };
  });
}

/** What each stroke was heard as. The limits lie nearer to the wrong strength than to the written one. */
function heardDynamic(strokes: readonly Stroke[], plain: Velocity): (stroke: Stroke) => Dynamic {
  const plains = strokes.filter(({ note }) => note.dynamic === "plain").map(({ hit }) => hit.velocity);
  const scatter = plains.length >= FEWEST_FOR_SCATTER ? quantile(plains, 0.9) : 0;
  return ({ note, hit }) => {
    const share = hit.velocity / plain;
    switch (note.dynamic) {
      case "accent":
        if (share < GHOSTED_BELOW) return "ghost";
        return share >= ACCENT_ABOVE && hit.velocity > scatter ? "accent" : "plain";
      case "plain":
        if (share < GHOSTED_BELOW) return "ghost";
        return share > PLAIN_HEAVY_ABOVE ? "accent" : "plain";
      case "ghost":
        if (share <= GHOST_HEAVY_ABOVE) return "ghost";
        return share > PLAIN_HEAVY_ABOVE ? "accent" : "plain";
    }
  };
}

function rangeOf(velocities: readonly Velocity[]): DynamicsFigures["range"] {
  if (velocities.length < FEWEST_FOR_RANGE) return null;
  return {
    soft: quantile(velocities, 0.1),
    middle: quantile(velocities, 0.5),
    loud: quantile(velocities, 0.9),
  };
}

/** The value below which a share of the values lies, between neighbours in proportion (Hyndman & Fan 1996, type 7). */
function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const place = (sorted.length - 1) * share;
  const below = sorted[Math.floor(place)] ?? Number.NaN;
  const above = sorted[Math.ceil(place)] ?? below;
  return below + (above - below) * (place - Math.floor(place));
}
