export * from "./differences.ts";
export type { Path, Tone } from "./drawing.ts";
export * from "./engrave.ts";
export { type CardDrawing, type CardPicture, engraveCard } from "./engraveCard.ts";
export { GLYPH_CODES, type GlyphName, glyphNamed } from "./glyphCodes.ts";
export type { PlacedHead, PlacedSymbol } from "./placedSymbol.ts";
export type { StaffToEngrave } from "./staffToEngrave.ts";
export { type SvgOptions, staffSvg, svgOf } from "./svg.ts";
