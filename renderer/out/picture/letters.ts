/**
 * The letters of the program, to be put into a picture: SIL Open Font License 1.1, which lets a document carry them.
 * They are part of this file, so that a picture can be made with the network off.
 */
import sans400 from "@fontsource/atkinson-hyperlegible/files/atkinson-hyperlegible-latin-400-normal.woff2?inline";
import sans700 from "@fontsource/atkinson-hyperlegible/files/atkinson-hyperlegible-latin-700-normal.woff2?inline";

const FACES = [
  { weight: 400, address: sans400 },
  { weight: 700, address: sans700 },
] as const;

/** The family the faces are of; what a program shows that cannot read them. */
export const LETTERS = '"Atkinson Hyperlegible", Verdana, Arial, sans-serif';

/** Rules for a style sheet: one face for each weight that is used, the bold one from 600 on. */
export function faceRules(weights: ReadonlySet<number>): string {
  const isUsed = (weight: number): boolean =>
    [...weights].some((used) => (used >= 600 ? 700 : 400) === weight);
  return FACES.filter(({ weight }) => isUsed(weight))
    .map(
      ({ weight, address }) =>
        `@font-face{font-family:"Atkinson Hyperlegible";font-weight:${weight};src:url(${address}) format("woff2")}`,
    )
    .join("");
}
