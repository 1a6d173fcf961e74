import { afterEach, beforeEach, expect, test } from "vitest";
import { findStudents } from "../../../../renderer/screens/roster/find.ts";
import { Roster } from "../../../../renderer/screens/roster/roster.ts";
import { BLANK, draftOf, fieldsOf, whatIsMissing } from "../../../../renderer/screens/roster/studentDraft.ts";
import type { StudioDatabase } from "../../../../renderer/store/index.ts";
import { allThatIsKept, newDatabase, student } from "./keptStudio.ts";

let database: StudioDatabase;
let roster: Roster;
let ids = 0;
beforeEach(async () => {
  database = newDatabase();
  ids = 0;
  roster = new Roster(database, {
    id: () => {
      ids += 1;
      return `id${ids}`;
    },
    now: () => "2026-03-02T15:30:00.000Z",
  });
  await roster.read();
});
afterEach(() => roster.stop());

const names = () => (roster.get().students ?? []).map(({ nickname }) => nickname);

test("a student is added, changed, archived; each is taken back, the latest first", async () => {
  const states = [await allThatIsKept(database)];
  const id = await roster.add(fieldsOf({ ...BLANK, nickname: " Noor ", weekday: "3" }));
  expect(id).toBe("id1");
  expect(roster.student("id1")).toMatchObject({
    nickname: "Noor",
    lessonDay: { weekday: 3, from: "15:00", minutes: 30 },
  });
  states.push(await allThatIsKept(database));
  await roster.change("id1", fieldsOf({ ...BLANK, nickname: "Noor B.", level: "working" }));
  expect(roster.student("id1")?.lessonDay).toBeUndefined();
  states.push(await allThatIsKept(database));
  await roster.archive("id1", true);
  expect(roster.student("id1")?.archived).toBe(true);
  expect(roster.get()).toMatchObject({ undoable: "Noor B. archived", said: "Noor B. archived." });
  for (const before of states.toReversed()) {
    await roster.undo();
    expect(await allThatIsKept(database)).toBe(before);
  }
  expect(roster.get()).toMatchObject({ undoable: null, students: [] });
  await roster.undo();
  expect(names()).toEqual([]);
});

test("groups are made, filled and dissolved, and come back", async () => {
  await roster.add(fieldsOf({ ...BLANK, nickname: "Bram" }));
  await roster.keepGroup({ name: "Saturday", studentIds: [] });
  const [group] = roster.get().groups;
  if (!group) throw new Error("The group is missing.");
  await roster.keepGroup({ ...group, studentIds: ["id1"] });
  await roster.dissolveGroup(group.id);
  expect(roster.get().groups).toEqual([]);
  await roster.undo();
  expect(roster.get().groups.map(({ studentIds }) => studentIds)).toEqual([["id1"]]);
});

test("what cannot be kept is told in a sentence, and nothing is changed", async () => {
  expect(await roster.add(fieldsOf({ ...BLANK, nickname: "x".repeat(61) }))).toBe(null);
  expect(roster.get().trouble).toBe("It cannot be kept: a nickname is needed, of at most 60 letters.");
  expect(await database.students.count()).toBe(0);
  expect(roster.get().undoable).toBe(null);
});

test("a change in another window is seen", async () => {
  roster.follow();
  const other = new Roster(database);
  await other.add(fieldsOf({ ...BLANK, nickname: "Casimir" }));
  await expect.poll(names).toEqual(["Casimir"]);
});

test.each([
  [{ nickname: "" }, "A nickname is needed."],
  [{ nickname: "Bram", consentBy: "his father" }, "The consent note needs both: who agreed, and the day."],
  [{ nickname: "Bram", weekday: "1", from: "" }, "The lesson day needs a time."],
  [{ nickname: "Bram" }, null],
])("of a form with %j is said: %s", (change, missing) => {
  expect(whatIsMissing({ ...BLANK, ...change })).toBe(missing);
});

test("the form gives back the student it was filled from", () => {
  const bram = student("b", "Bram", {
    lessonDay: { weekday: 7, from: "09:15", minutes: 45 },
    consent: { by: "his father", on: "2026-01-02" },
    notes: "left-handed at table only",
  });
  const { version: _v, id: _i, archived: _a, addedAt: _at, ...fields } = bram;
  expect(fieldsOf(draftOf(bram))).toEqual(fields);
});

test.each([
  ["zoe", ["Zoë"]],
  ["first year", ["Bram", "Zoë"]],
  ["bram tuesday", ["Bram"]],
  ["nobody", []],
])("%s finds %j", (typed, found) => {
  const all = [
    student("b", "Bram", { lessonDay: { weekday: 2, from: "15:00", minutes: 30 } }),
    student("z", "Zoë"),
    student("g", "Gone", { archived: true }),
  ];
  const filter = { typed, groupId: null, archived: false };
  expect(findStudents(all, [], filter).map(({ nickname }) => nickname)).toEqual(found);
});

test("that there were students is known when the last one is gone, and kept for the next time, of nobody in particular", async () => {
  const kept = new Map<string, string>();
  const place = { getItem: (key: string) => kept.get(key) ?? null, setItem: kept.set.bind(kept) };
  const making = { id: () => "id1", now: () => "2026-03-02T15:30:00.000Z" };
  const first = new Roster(database, making, place);
  await first.read();
  expect(first.get().taughtBefore).toBe(false);
  await first.add(fieldsOf({ ...BLANK, nickname: "Noor" }));
  await first.read();
  await database.students.clear();
  await first.read();
  expect(first.get()).toMatchObject({ students: [], taughtBefore: true });
  expect(JSON.stringify([...kept])).not.toContain("Noor");
  const next = new Roster(database, making, place);
  expect(next.get().taughtBefore).toBe(true);
});

test("invented students were never taught", async () => {
  await database.students.add({ ...student("ottilie", "Ottilie"), invented: true });
  const invented = new Roster(database);
  await invented.read();
  expect(invented.get()).toMatchObject({ students: [{ id: "ottilie" }], taughtBefore: false });
});
