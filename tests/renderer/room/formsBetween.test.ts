import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { MessageOf } from "../../../engine/rooms/index.ts";
import { FIRST_SET } from "../../../engine/rounds/index.ts";
import { type FarForm, FormsBetween } from "../../../renderer/room/formsBetween.ts";

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

const FORM: MessageOf<"form"> = {
  kind: "form",
  from: "noor",
  set: FIRST_SET,
  calls: true,
  beginsAt: 100,
  delaySeconds: 2.4,
};
/** Their clock is five seconds behind ours. */
const inOwnTime = (time: number): number => time + 5;

test("a form that is told three times begins once, its line later by the delay, on our clock", () => {
  const forms = new FormsBetween();
  const heard: FarForm[] = [];
  forms.onForm((form) => heard.push(form));
  for (let times = 0; times < 3; times += 1) expect(forms.heard(FORM, inOwnTime)).toBe(true);
  expect(heard).toEqual([{ set: FIRST_SET, calls: true, delaySeconds: 2.4, line: 107.4 }]);
});

test("before the clocks were compared it cannot be begun, and counts when it is told once more", () => {
  const forms = new FormsBetween();
  const heard: FarForm[] = [];
  const stop = forms.onForm((form) => heard.push(form));
  expect(forms.heard(FORM, () => undefined)).toBe(false);
  expect(forms.heard(FORM, inOwnTime)).toBe(true);
  stop();
  forms.heard({ ...FORM, beginsAt: 200 }, inOwnTime);
  expect(heard).toHaveLength(1);
});

test("only the form that was begun last is left", () => {
  const forms = new FormsBetween();
  let left = 0;
  forms.onFormLeft(() => {
    left += 1;
  });
  forms.heard(FORM, inOwnTime);
  forms.heardLeft({ from: "noor", beginsAt: 90 });
  expect(left).toBe(0);
  forms.heardLeft({ from: "noor", beginsAt: 100 });
  expect(left).toBe(1);
});

test("what is begun here is said three times, and no more once it is left", () => {
  const forms = new FormsBetween();
  const said: string[] = [];
  forms.left(() => said.push("nothing to leave"));
  forms.begun({ from: "bram", beginsAt: 10 }, () => said.push("begun"));
  vi.advanceTimersByTime(300);
  forms.left(({ from }) => said.push(`left by ${from}`));
  vi.advanceTimersByTime(2000);
  expect(said).toEqual(["begun", "begun", "left by bram", "left by bram", "left by bram"]);
});
