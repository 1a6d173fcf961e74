/**
 * Code points of the signs that stand on cards, by their names in SMuFL, the Standard Music Font Layout 1.4. Each is in
 * the list of scripts/glyphs.mjs.
 */
export const GLYPH_CODES = {
  dalSegno: 0xe045,
  daCapo: 0xe046,
  segno: 0xe047,
  coda: 0xe048,
  timeSigCommon: 0xe08a,
  timeSigCutCommon: 0xe08b,
  noteWhole: 0xe1d2,
  noteHalfUp: 0xe1d3,
  noteQuarterUp: 0xe1d5,
  note8thUp: 0xe1d7,
  note16thUp: 0xe1d9,
  note32ndUp: 0xe1db,
  note64thUp: 0xe1dd,
  augmentationDot: 0xe1e7,
  tremolo3: 0xe222,
  buzzRoll: 0xe22a,
  articAccentAbove: 0xe4a0,
  articStaccatoAbove: 0xe4a2,
  articTenutoAbove: 0xe4a4,
  articMarcatoAbove: 0xe4ac,
  fermataAbove: 0xe4c0,
  restWhole: 0xe4e3,
  restHalf: 0xe4e4,
  restQuarter: 0xe4e5,
  rest8th: 0xe4e6,
  rest16th: 0xe4e7,
  rest32nd: 0xe4e8,
  rest64th: 0xe4e9,
  repeat1Bar: 0xe500,
  repeat2Bars: 0xe501,
  dynamicPiano: 0xe520,
  dynamicForte: 0xe522,
  dynamicPP: 0xe52b,
  dynamicMP: 0xe52c,
  dynamicMF: 0xe52d,
  dynamicFF: 0xe52f,
  dynamicFortePiano: 0xe534,
  dynamicSforzato: 0xe539,
} as const;
export type GlyphName = keyof typeof GLYPH_CODES;

/** The sign as a character of the music font. @throws RangeError for a name that no card has. */
export function glyphNamed(name: string): string {
  if (!isGlyphName(name)) throw new RangeError(`No card draws the glyph "${name}".`);
  return String.fromCodePoint(GLYPH_CODES[name]);
}

function isGlyphName(name: string): name is GlyphName {
  return Object.hasOwn(GLYPH_CODES, name);
}
