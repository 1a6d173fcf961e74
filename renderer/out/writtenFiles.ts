/** Files made from written music: to be heard, to be opened in a notation program, to be shown. */
import { inARow, inBars, onStaff, type Written } from "../../engine/catalogue/index.ts";
import { writeGrooveSmf, writeMusicXml, writeSmf } from "../../engine/formats/index.ts";
import { type Groove, unfoldedOnStaff, usualTempo } from "../../engine/score/index.ts";
import type { Bpm } from "../../engine/units/index.ts";
import { type Engraving, engrave, svgOf } from "../../engraving/index.ts";
import { fileName } from "./fileName.ts";
import { GENERAL_MIDI } from "./generalMidi.ts";
import type { Picture } from "./picture/figurePicture.ts";
import { toPng } from "./picture/toPng.ts";
import { FILE_KINDS, type OutFile } from "./saveFile.ts";
import type { Origin } from "./TakenFrom.ts";

/** Bars at least of what repeats, so that a groove of one bar can be heard before it is over. Our choice. */
const FEWEST_BARS = 4;

/**
 * As written, for General MIDI; at its usual tempo where none is told. A groove is repeated to four bars or more; the rest
 * is played once, a part with all its sections, their tempos and metres.
 *
 * @throws NoKeyError when General MIDI has no key for one of its voices.
 */
export function writtenMidi(written: Written, origin: Origin): OutFile {
  const tempoBpm = tempoOf(written, origin);
  const content =
    written.kind === "groove"
      ? writeGrooveSmf(written.music, { bars: barsOut(written.music), tempoBpm, map: GENERAL_MIDI })
      : writeSmf({ name: origin.of, stretches: inARow(written, tempoBpm) }, { map: GENERAL_MIDI });
  return {
    name: fileName({ ...origin, tempoBpm, ending: "mid" }),
    kind: FILE_KINDS.mid,
    content: Uint8Array.from(content),
  };
}

function barsOut({ bars }: Groove): number {
  return bars * Math.ceil(FEWEST_BARS / bars);
}

/** For notation programs: a part with all its sections, each bar as often as it is played. @throws NoKeyError as {@link writtenMidi}. */
export function writtenMusicXml(written: Written, origin: Origin): OutFile {
  const tempoBpm = tempoOf(written, origin);
  const scores =
    written.kind === "part"
      ? unfoldedOnStaff(written.music)
      : onStaff(written, tempoBpm).map(({ score }) => score);
  return {
    name: fileName({ ...origin, tempoBpm, ending: "musicxml" }),
    kind: FILE_KINDS.musicxml,
    content: writeMusicXml(scores, { map: GENERAL_MIDI, title: origin.of }),
  };
}

/** Pixels across a staff that is kept as a picture: a page's width; and round it. */
const STAFF_WIDTH = 760;
const EDGE = 16;

/** The staff as a picture, black on white; of a part, its sections one under the other, without their names. */
export async function staffPicture(written: Written, origin: Origin, kind: "svg" | "png"): Promise<OutFile> {
  const picture = onWhite(engraved(written), `${origin.of}, staff`);
  return {
    name: fileName({ ...origin, what: "staff", ending: kind }),
    kind: FILE_KINDS[kind],
    content: kind === "svg" ? picture.svg : await toPng(picture),
  };
}

function engraved(written: Written): readonly Engraving[] {
  let barsBefore = 0;
  return onStaff(written).map(({ score }) => {
    const engraving = engrave([{ score }], {
      width: STAFF_WIDTH,
      barsBefore,
      simile: written.kind === "part",
    });
    barsBefore += score.bars.length;
    return engraving;
  });
}

/** Engravings under one another with white round them, no wider than their bars, in colours of their own. */
function onWhite(engravings: readonly Engraving[], title: string): Picture {
  const right = Math.max(...engravings.flatMap(({ bars }) => bars.map(({ left, width }) => left + width)));
  const inner = Math.ceil(right) + 1;
  let y = EDGE;
  const staves = engravings.map((engraving) => {
    const staff = svgOf({ ...engraving, width: inner }, title)
      .replace("<svg ", `<svg x="${EDGE}" y="${y}" `)
      .replace(/ class="[^"]*"/g, "")
      .replaceAll("currentColor", "#000000");
    y += engraving.height + EDGE;
    return staff;
  });
  const [width, height] = [inner + 2 * EDGE, y];
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    `<rect width="${width}" height="${height}" fill="#ffffff"/>`,
    ...staves,
    "</svg>",
  ].join("\n");
  return { svg, width, height };
}

/** Of a part, the tempo it begins in. */
function tempoOf(written: Written, { tempoBpm }: Origin): Bpm {
  return Math.round(tempoBpm ?? inARow(written)[0]?.tempoBpm ?? usualTempo(inBars(written)));
}
