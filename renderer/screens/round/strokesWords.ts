/**
 * So many strokes, at the beginning of a sentence.
 *
 * @example
 * strokesWords(1) // => "One stroke"
 */
export function strokesWords(count: number): string {
  return count === 1 ? "One stroke" : `${count} strokes`;
}
