import { expect, test } from "vitest";
import { keepSoundChoice, readSoundChoice } from "../../../renderer/audio/soundChoice.ts";
import { SoundDesk } from "../../../renderer/audio/soundDesk.ts";
import { FIRST_VOLUME, VOLUME_STEPS } from "../../../renderer/audio/volume.ts";
import type { KeepingPlace } from "../../../renderer/session/kitMapChoice.ts";

function place(): KeepingPlace & { readonly kept: Map<string, string> } {
  const kept = new Map<string, string>();
  return {
    kept,
    getItem: (key) => kept.get(key) ?? null,
    setItem: (key, value) => void kept.set(key, value),
  };
}

test("what was kept is read again", () => {
  const where = place();
  const choice = { heardBy: "headphones", kitIsSilent: true, noteRead: true } as const;
  expect(keepSoundChoice(where, choice)).toBeUndefined();
  expect(readSoundChoice(where)).toEqual(choice);
});

test.each(["{broken", "[]", '{"version":2}'])("kept text %s counts as nothing chosen", (text) => {
  const where = place();
  where.kept.set("throneside.sound", text);
  expect(readSoundChoice(where)).toEqual({ heardBy: null, kitIsSilent: false, noteRead: false });
});

test("a browser that keeps nothing is said so", () => {
  const full: KeepingPlace = {
    getItem: () => null,
    setItem: () => {
      throw new Error("quota");
    },
  };
  expect(keepSoundChoice(full, { heardBy: null, kitIsSilent: false, noteRead: false })).toContain("quota");
});

test("the note on hearing is due the first time headphones are chosen, and until it was read", () => {
  const where = place();
  const desk = new SoundDesk(where);
  desk.hearBy("speakers");
  expect(desk.get().isHearingNoteDue).toBe(false);
  desk.hearBy("headphones");
  expect(desk.get().isHearingNoteDue).toBe(true);
  desk.hearingNoteRead();
  expect(desk.get().isHearingNoteDue).toBe(false);

  const later = new SoundDesk(where);
  expect(later.get().heardBy).toBe("headphones");
  later.hearBy("speakers");
  later.hearBy("headphones");
  expect(later.get().isHearingNoteDue).toBe(false);
});

test("the volume starts low each time, and is held to its range", () => {
  const where = place();
  const desk = new SoundDesk(where);
  desk.setVolume(99);
  expect(desk.get().volume).toBe(VOLUME_STEPS);
  desk.setVolume(-3);
  expect(desk.get().volume).toBe(0);
  desk.setVolume(9);
  expect(new SoundDesk(where).get().volume).toBe(FIRST_VOLUME);
});
