/** Engravings as SVG text: what the command line writes, prints and saves. */
import { type Groove, metreName, writeStaff } from "../engine/score/index.ts";
import { type Engraving, type EngravingOptions, engrave } from "./engrave.ts";
import type { StaffToEngrave } from "./staffToEngrave.ts";

export interface SvgOptions extends Partial<EngravingOptions> {
  /** Said by screen readers, and shown by viewers as the picture's title. */
  readonly title?: string;
}

/** Pixels at which two bars of sixteenths fill a line of print. */
const USUAL_WIDTH = 760;

/**
 * Staves as a whole SVG file. It draws in the current colour (black where there is none) and needs no font.
 *
 * @param what staves to engrave, or a groove, which is written between repeat signs.
 * @throws EngravingError as {@link engrave} does.
 */
export function staffSvg(what: readonly StaffToEngrave[] | Groove, options: SvgOptions = {}): string {
  const staves = "notes" in what ? [{ score: writeStaff(what, { repeated: true }) }] : what;
  const title = options.title ?? titleOf(staves);
  return svgOf(engrave(staves, { ...options, width: options.width ?? USUAL_WIDTH }), title);
}

function titleOf(staves: readonly StaffToEngrave[]): string {
  const score = staves[0]?.score;
  return score ? `${score.name ?? "Drum staff"}, ${metreName(score.metre)}` : "Drum staff";
}

/** An engraving as a whole SVG file. */
export function svgOf({ width, height, paths }: Engraving, title: string): string {
  const lines = paths.map(({ tone, d, strokeWidth, dash }) => {
    const how =
      strokeWidth === undefined
        ? `fill="currentColor"`
        : `fill="none" stroke="currentColor" stroke-width="${strokeWidth}"${dash ? ` stroke-dasharray="${dash}"` : ""}`;
    return `  <path class="${tone}" ${how} d="${d}"/>`;
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img">`,
    `  <title>${escaped(title)}</title>`,
    ...lines,
    "</svg>",
    "",
  ].join("\n");
}

function escaped(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}
