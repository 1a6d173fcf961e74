import { describe, expect, test } from "vitest";
import { lessonState } from "../../../../engine/session/index.ts";
import { eraseStudent, lookAtErasing } from "../../../../renderer/screens/roster/eraseStudent.ts";
import { nameHider } from "../../../../renderer/screens/roster/withoutStudent.ts";
import { lessonsOfStudent, readLesson, takesOfStudent } from "../../../../renderer/store/index.ts";
import { ALONE, allThatIsKept, BRAM, keptStudio, OF_BRAM, OTTILIE, SHARED, student } from "./keptStudio.ts";

async function erased(others = [OTTILIE, BRAM]) {
  const database = await keptStudio();
  await eraseStudent(database, OTTILIE, others, async (entry) => {
    await database.entries.put({ ...entry, bareNames: [entry.name.toLowerCase()] });
  });
  return database;
}

describe("erasing a student", () => {
  test("before it, the scan finds the student in every table it should", async () => {
    const database = await keptStudio();
    for (const table of database.tables) {
      const all = JSON.stringify(await table.toArray());
      const isFound = all.includes(OTTILIE.id) || all.includes("Ottilie");
      // Strikes name nobody: they belong to a lane of a lesson.
      expect([table.name, isFound]).toEqual([table.name, table.name !== "hits"]);
    }
  });

  test("afterwards neither the id nor the nickname is anywhere in the storage", async () => {
    const all = await allThatIsKept(await erased());
    expect(all).not.toContain(OTTILIE.id);
    expect(all.toLowerCase()).not.toContain("ottilie");
    expect(all).not.toContain(ALONE);
    expect(all).toContain(BRAM.id);
  });

  test("what is said beforehand is what goes", async () => {
    const database = await keptStudio();
    expect(await lookAtErasing(database, OTTILIE.id)).toEqual({
      alone: 1,
      shared: 1,
      takes: 2,
      results: 2,
      listChanges: 1,
    });
  });

  test("the other student keeps every lesson, take and strike of their own", async () => {
    const database = await erased();
    const lessons = await lessonsOfStudent(database, BRAM.id);
    expect(lessons.map(({ id, hits, takes }) => ({ id, hits, takes }))).toEqual([
      { id: SHARED, hits: 9, takes: 1 },
      { id: OF_BRAM, hits: 8, takes: 1 },
    ]);
    expect(await takesOfStudent(database, BRAM.id)).toHaveLength(2);
    const { events } = await readLesson(database, SHARED);
    const state = lessonState(events);
    expect(state.stage).toBe("ended");
    expect(state.began?.studentIds).toEqual([BRAM.id]);
    expect(state.began?.lanes.map(({ studentId }) => studentId)).toEqual([BRAM.id, null]);
    expect(events.filter(({ kind, lane }) => kind === "hit" && lane === 1)).toEqual([]);
    expect(state.remarks.map(({ text }) => text)).toEqual(["somebody leads, Bram answers."]);
  });

  test("a nickname that another student has too stays in the words of others, and the id goes all the same", async () => {
    const database = await erased([OTTILIE, BRAM, student("id-second", "ottilie")]);
    const all = await allThatIsKept(database);
    expect(all).not.toContain(OTTILIE.id);
    expect(all).toContain("Like Ottilie, but louder.");
  });

  test("where a shared lesson cannot be written anew, it is as it was", async () => {
    const database = await keptStudio();
    const lesson = async () => ({
      record: await database.lessons.get(SHARED),
      events: (await readLesson(database, SHARED)).events,
      takes: await database.takes.where("lessonId").equals(SHARED).toArray(),
    });
    const before = await lesson();
    const full = (): never => {
      throw new DOMException("", "QuotaExceededError");
    };
    database.lessons.hook("creating", full);
    await expect(eraseStudent(database, OTTILIE, [OTTILIE, BRAM], async () => {})).rejects.toThrow("no room");
    database.lessons.hook("creating").unsubscribe(full);
    expect(await lesson()).toEqual(before);
  });

  test("broken off, it ends the same when it is begun again", async () => {
    const database = await keptStudio();
    const keep = async (): Promise<void> => {
      throw new Error("the power went");
    };
    await expect(eraseStudent(database, OTTILIE, [OTTILIE, BRAM], keep)).rejects.toThrow("the power went");
    expect(await database.students.get(OTTILIE.id)).toEqual(OTTILIE);
    await eraseStudent(database, OTTILIE, [OTTILIE, BRAM], async (entry) => {
      await database.entries.put({ ...entry, bareNames: [] });
    });
    const all = await allThatIsKept(database);
    expect(all.toLowerCase()).not.toContain("ottilie");
  });

  test("rows that were set aside and speak of nobody stay", async () => {
    const database = await erased();
    expect(await database.setAside.count()).toBe(1);
  });
});

test.each([
  ["Bram", "Bram and Bramble, bram!", "somebody and Bramble, somebody!"],
  ["O.", "O. is not Ob", "somebody is not Ob"],
  ["Zoë", "Zoë's and Zoëlle", "somebody's and Zoëlle"],
])("the name %s goes out of %j where it stands by itself", (name, text, left) => {
  expect(nameHider(name)(text)).toBe(left);
});
