import { expect, test } from "vitest";
import { parseGrid } from "../../../../engine/score/index.ts";
import { RecordDesk, type TakeWriter } from "../../../../renderer/screens/shelf/record/recordDesk.ts";
import type { WrittenDown } from "../../../../renderer/screens/shelf/writing/writeDown.ts";
import { KitLog } from "../../../../renderer/session/kitLog.ts";
import { hit } from "../../session/lessonsPlayed.ts";

const groove = (name: string) =>
  parseGrid(`groove: a\nname: ${name}\nmetre: 4/4\ntempo: 80-100\nsnare | x... |`);
const written = (name: string): WrittenDown => ({
  kind: "written",
  whole: groove(name),
  unsure: [],
  unsureBeat: { between: true, one: true },
  round: { groove: groove(name), played: 4, outOf: 4 },
});

/** A desk whose writer answers when told, each by its own name. */
function deskWith(logs = [new KitLog()]) {
  const asked: { readonly later: number; readonly answer: (written: WrittenDown) => void }[] = [];
  const writer: TakeWriter = {
    writeDown: (_hits, _click, later) => new Promise((answer) => asked.push({ later, answer })),
  };
  const sound = { startClick: async () => {}, stopClick: () => {} };
  return { desk: new RecordDesk(logs, writer, sound), asked };
}

async function understood() {
  const { desk, asked } = deskWith();
  desk.start();
  const stopped = desk.stop();
  asked[0]?.answer(written("first"));
  await stopped;
  return { desk, asked };
}

const shown = (desk: RecordDesk): string | undefined => {
  const { at } = desk.get();
  return at.stage === "understood" ? at.written.whole.name : undefined;
};

test("what is moved is written anew, by all moves together", async () => {
  const { desk, asked } = await understood();
  const first = desk.move(1 / 2);
  const second = desk.move(1);
  expect(asked.map(({ later }) => later)).toEqual([0, 0.5, 1.5]);
  asked[2]?.answer(written("both"));
  await second;
  expect(shown(desk)).toBe("both");
  // The slower answer to the earlier move comes too late.
  asked[1]?.answer(written("one"));
  await first;
  expect(shown(desk)).toBe("both");
});

test("answers that were given to another writing are taken back, and what was chosen stays", async () => {
  const { desk, asked } = await understood();
  desk.choose("whole");
  desk.answer(0, true);
  const moved = desk.move(-1);
  asked[1]?.answer(written("moved"));
  await moved;
  expect(desk.get().at).toMatchObject({ chosen: "whole", otherwise: new Set(), later: -1 });
});

test("a take that was left meanwhile does not come back", async () => {
  const { desk, asked } = await understood();
  const moved = desk.move(1);
  desk.again();
  asked[1]?.answer(written("moved"));
  await moved;
  expect(desk.get().at).toEqual({ stage: "before", trouble: null });
});

test.each([0, 1])("the kit that is played is recorded, whichever it is: kit %i", (played) => {
  const logs = [new KitLog(), new KitLog()];
  const { desk } = deskWith(logs);
  const strike = (kit: number, time: number): void =>
    logs[kit]?.append([{ source: "kit", live: true, event: { kind: "hit", hit: hit(time) } }]);
  // What was struck before the start is none of it.
  strike(0, 0.5);
  strike(1, 0.6);
  desk.start();
  expect(desk.hits()).toEqual([]);
  // Somebody taps on the other one first, in passing.
  strike(1 - played, 1);
  for (let beat = 0; beat < 4; beat += 1) strike(played, 2 + beat / 2);
  expect(desk.hits().map(({ time }) => time)).toEqual([2, 2.5, 3, 3.5]);
});
