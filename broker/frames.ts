/**
 * Cuts what comes over a connection into MQTT control packets, and lets none grow beyond what is allowed: the length stands
 * at the beginning (MQTT 5.0, OASIS, section 2.1: one byte of type, then the remaining length in up to four bytes of seven
 * bits each), so that a packet of ten megabytes is refused before it is held.
 */

/** What was cut, or why the connection cannot go on. */
export type Cut =
  | { readonly kind: "packets"; readonly packets: readonly Buffer[] }
  | { readonly kind: "too large"; readonly bytes: number }
  | { readonly kind: "malformed" };

const LENGTH_BYTES = 4;

export class Frames {
  readonly #mostBytes: number;
  #held: Buffer = Buffer.alloc(0);

  /** @param mostBytes of one packet, its head counted in. */
  constructor(mostBytes: number) {
    this.#mostBytes = mostBytes;
  }

  take(chunk: Buffer): Cut {
    this.#held = this.#held.length === 0 ? chunk : Buffer.concat([this.#held, chunk]);
    const packets: Buffer[] = [];
    for (;;) {
      const bytes = packetBytes(this.#held);
      if (bytes === "malformed") return { kind: "malformed" };
      if (bytes !== "more" && bytes > this.#mostBytes) return { kind: "too large", bytes };
      if (bytes === "more" || this.#held.length < bytes) return { kind: "packets", packets };
      packets.push(this.#held.subarray(0, bytes));
      this.#held = this.#held.subarray(bytes);
    }
  }
}

/** How long the packet is that begins here; "more" where the head is not all there. */
function packetBytes(held: Buffer): number | "more" | "malformed" {
  let length = 0;
  for (let at = 0; at < LENGTH_BYTES; at += 1) {
    const byte = held[1 + at];
    if (byte === undefined) return "more";
    length += (byte & 127) * 128 ** at;
    if (byte < 128) return 2 + at + length;
  }
  return "malformed";
}
