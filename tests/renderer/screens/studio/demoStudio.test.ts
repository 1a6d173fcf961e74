import { expect, test } from "vitest";
import { nextTimeList } from "../../../../engine/memory/index.ts";
import { lessonState } from "../../../../engine/session/index.ts";
import { seededChance } from "../../../../engine/units/index.ts";
import { inStudio } from "../../../../renderer/screens/next-time/nextTimePlace.ts";
import { loadDemoStudio } from "../../../../renderer/screens/studio/demo/demoStudio.ts";
import { inventLesson } from "../../../../renderer/screens/studio/demo/inventLesson.ts";
import { INVENTED_STUDENTS } from "../../../../renderer/screens/studio/demo/millrace.ts";
import { removeDemoStudio } from "../../../../renderer/screens/studio/demo/removeDemoStudio.ts";
import { lessonsOfDay, readLesson, takesOfStudent } from "../../../../renderer/store/index.ts";
import { allThatIsKept, keptStudio } from "../roster/keptStudio.ts";

const NOW = { now: "2026-03-10T10:00:00.000Z", zone: "Europe/Vienna" };

test("half a year of lessons comes, all of it marked as invented, and goes again without a trace", async () => {
  const database = await keptStudio();
  const before = await allThatIsKept(database);
  const told: number[] = [];
  await loadDemoStudio(database, NOW, (done) => told.push(done));
  expect(told.at(-1)).toBe(104);

  const students = await database.students.filter(({ invented }) => invented === true).toArray();
  expect(students.map(({ nickname }) => nickname).sort()).toEqual(["Bram", "Casimir", "Noor", "Ottilie"]);
  expect(await database.lessons.filter(({ invented }) => invented === true).count()).toBe(104);
  expect(await lessonsOfDay(database, "2026-03-10")).toEqual([]);
  expect(await lessonsOfDay(database, "2026-03-03")).toHaveLength(5);
  const ottilie = students.find(({ nickname }) => nickname === "Ottilie");
  if (!ottilie) throw new Error("Ottilie is missing.");
  const takes = await takesOfStudent(database, ottilie.id);
  expect(takes.length).toBe(52);
  const spreads = takes.toReversed().flatMap(({ spreadMs }) => spreadMs ?? []);
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  // She got steadier: simulated so, and heard so.
  expect(mean(spreads.slice(-10))).toBeLessThan(mean(spreads.slice(0, 10)));
  const { results, changes } = await inStudio(database).evidenceOf(ottilie);
  const list = nextTimeList({ results, changes, lessonDay: "2026-03-10" });
  expect(list.refresh.length).toBeGreaterThan(0);
  const { events } = await readLesson(database, takes[0]?.lessonId ?? "");
  expect(lessonState(events)).toMatchObject({ stage: "ended", began: { invented: true } });

  await removeDemoStudio(database);
  expect(await allThatIsKept(database)).toBe(before);
}, 120_000);

test("the same seed invents the same lesson", () => {
  const [who] = INVENTED_STUDENTS;
  if (!who) throw new Error("Nobody is invented.");
  const lesson = () =>
    inventLesson(who, {
      lessonId: "l",
      at: "2026-03-03T15:00:00.000Z",
      zone: "Europe/Vienna",
      number: 10,
      of: 26,
      chance: seededChance(3),
      met: new Set(),
    }).events;
  expect(lesson()).toEqual(lesson());
  expect(lesson().filter(({ kind }) => kind === "judgement")).toHaveLength(2);
});
