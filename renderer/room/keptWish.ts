/** Where a room was joined the last time, so that only the code is asked again. The code itself is not kept. */
import { z } from "zod";
import { ROLES } from "../../engine/rooms/index.ts";
import type { KeepingPlace } from "../session/keepingPlace.ts";

const KEPT_AS = "throneside.room";

const wishSchema = z.strictObject({
  version: z.literal(1),
  name: z.string().max(60),
  address: z.string().max(200),
  room: z.string().max(40),
  username: z.string().max(200),
  role: z.enum(ROLES),
});
export type KeptWish = Readonly<Omit<z.infer<typeof wishSchema>, "version">>;

const USUAL: KeptWish = { name: "", address: "", room: "Studio", username: "", role: "player" };

/** The usual one where it cannot be read: it is asked for anyhow. */
export function readWish(place: KeepingPlace): KeptWish {
  try {
    const kept = wishSchema.safeParse(JSON.parse(place.getItem(KEPT_AS) ?? "null"));
    if (kept.success) {
      const { version: _, ...wish } = kept.data;
      return wish;
    }
  } catch {
    // A browser that keeps nothing, or a damaged text: asked again.
  }
  return USUAL;
}

export function keepWish(place: KeepingPlace, wish: KeptWish): void {
  try {
    place.setItem(KEPT_AS, JSON.stringify({ version: 1, ...wish }));
  } catch {
    // It holds while the program is open.
  }
}
