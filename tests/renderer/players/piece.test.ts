import { expect, test } from "vitest";
import { STYLES } from "../../../engine/catalogue/index.ts";
import { writeGrooveSmf } from "../../../engine/formats/index.ts";
import { KitEar } from "../../../engine/kit/index.ts";
import { fileMessages, grooveMessages, PieceError } from "../../../renderer/players/piece.ts";
import { SHIPPED_MAPS } from "../../../renderer/session/kitMapChoice.ts";

const [map] = SHIPPED_MAPS;
if (!map) throw new Error("No map is shipped.");
const asked = { styleId: "shuffle", tempoBpm: 110, bars: 4, seed: 7 };

test("the same seed plays the same strokes, another seed others", () => {
  expect(grooveMessages(asked, map)).toEqual(grooveMessages(asked, map));
  expect(grooveMessages({ ...asked, seed: 8 }, map)).not.toEqual(grooveMessages(asked, map));
});

test.each(STYLES.map(({ id, variants }) => [id, variants] as const))(
  "%s is heard in its own voices, through the map it was played by",
  (styleId, variants) => {
    const ear = new KitEar(map);
    const piece = grooveMessages({ ...asked, styleId }, map);
    const heard = new Set(
      piece.messages.flatMap(({ message, time }) => {
        const event = ear.hear(message, time);
        return event?.kind === "hit" ? [event.hit.voice] : [];
      }),
    );
    expect([...heard].sort()).toEqual([...(variants[0]?.voices ?? [])].sort());
  },
);

test("a style there is not is refused in a sentence", () => {
  expect(() => grooveMessages({ ...asked, styleId: "none" }, map)).toThrow(PieceError);
});

test("a map without the voices is refused in a sentence", () => {
  const bare = {
    ...map,
    name: "one cowbell",
    pads: [{ note: 56, voice: "cowbell" as const, zone: "whole" as const }],
  };
  expect(() => grooveMessages(asked, bare)).toThrow("one cowbell has none of the voices of Shuffle");
});

test("a MIDI file gives its strokes in order of time", () => {
  const groove = STYLES[0]?.variants[0];
  if (!groove) throw new Error("The catalogue is empty.");
  const bytes = writeGrooveSmf(groove, { bars: 2, tempoBpm: 120, map });
  const { messages, title } = fileMessages("two bars.mid", bytes);
  const times = messages.map(({ time }) => time);
  expect(title).toBe("two bars.mid");
  expect(times).toEqual([...times].sort((a, b) => a - b));
  expect(messages.filter(({ message }) => message.kind === "note-on")).toHaveLength(
    groove.notes.length * (2 / groove.bars),
  );
});

test.each([
  ["an empty file", new Uint8Array(), "The file is empty"],
  ["a file of another kind", new TextEncoder().encode("a letter"), "not a Standard MIDI File"],
])("%s is refused with what is wrong and what to do", (_, bytes, reason) => {
  const read = (): unknown => fileMessages("broken.mid", bytes);
  expect(read).toThrow(PieceError);
  expect(read).toThrow(reason);
  expect(read).toThrow("Choose another file");
});
