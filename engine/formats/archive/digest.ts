/** SHA-256 of bytes (FIPS 180-4); passed in, because each platform brings its own. */
export type Digest = (bytes: Uint8Array<ArrayBuffer>) => Promise<Uint8Array>;

/** The check of a block: over the check before it and the block's own bytes. */
export function chained(
  before: Uint8Array,
  block: readonly Uint8Array[],
  digest: Digest,
): Promise<Uint8Array> {
  return digest(joined([before, ...block]));
}

export function joined(parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const all = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

/**
 * Bytes in hexadecimal.
 *
 * @example
 * hex(new Uint8Array([0, 171])) // => "00ab"
 */
export function hex(bytes: Uint8Array): string {
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}
