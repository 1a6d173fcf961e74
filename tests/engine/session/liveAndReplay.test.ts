/**
 * The law of the log: what a screen showed while the lesson was on is what Replay shows at that event. Live, a program
 * folds each event as it comes, on what it read when it was opened; Replay folds what was kept, and read again, in one go.
 */
import fc from "fast-check";
import { expect, test } from "vitest";
import { hitChunkSchema, rowsOf, storedEventSchema, unpackHits } from "../../../engine/records/index.ts";
import {
  freshPlay,
  type Play,
  playAfter,
  playOf,
  ROUND_RULES,
  type SteppedKind,
} from "../../../engine/rounds/index.ts";
import {
  hitsOfTake,
  type LessonState,
  lessonAfter,
  lessonState,
  type RoundKind,
  type SessionEvent,
  sessionEventSchema,
} from "../../../engine/session/index.ts";
import { type LawfulLesson, lawfulLesson } from "./lawfulLessons.ts";
import { STEPPED_KINDS } from "./lessons.ts";

const LESSON = "2026-03-02T15:30:00.000Z~a1";
const DAY = "2026-03-02";

/** The log as it is kept, some events at a time, and read again. */
function keptAndRead(events: readonly SessionEvent[], sizes: readonly number[]): readonly SessionEvent[] {
  const read: SessionEvent[] = [];
  for (let from = 0, batch = 0; from < events.length; batch += 1) {
    const size = sizes[batch % sizes.length] ?? 1;
    const rows = rowsOf(LESSON, DAY, events.slice(from, from + size));
    from += size;
    read.push(...rows.events.map((row) => storedEventSchema.parse(JSON.parse(JSON.stringify(row))).event));
    read.push(...rows.hits.flatMap((row) => unpackHits(hitChunkSchema.parse(structuredClone(row)))));
  }
  return read.sort((a, b) => a.seq - b.seq);
}

/** A round that is kept step by step, as its page shows it while it is on. */
type Plays = Map<string, Play<unknown>>;

function steppedKind(round: RoundKind): SteppedKind | undefined {
  return STEPPED_KINDS.find((kind) => kind === round);
}

function stepped(plays: Plays, event: SessionEvent): void {
  if (event.kind === "round-began") {
    const kind = steppedKind(event.round);
    if (kind) plays.set(event.roundId, freshPlay<unknown, never>(ROUND_RULES[kind] as never));
  }
  if (event.kind !== "round-step") return;
  const { roundId, step } = event;
  const play = plays.get(roundId) as Play<never> | undefined;
  if (play) plays.set(roundId, playAfter(ROUND_RULES[step.round] as never, play, step.event as never));
}

/** The states a screen saw, after each event that was not lost, by the event's number. */
function seenLive({ sittings }: LawfulLesson): ReadonlyMap<number, { state: LessonState; plays: Plays }> {
  const seen = new Map<number, { state: LessonState; plays: Plays }>();
  for (const { read, added } of sittings) {
    let state = lessonState(read);
    const plays: Plays = new Map();
    for (const event of read) stepped(plays, event);
    for (const event of added) {
      state = lessonAfter(state, event);
      stepped(plays, event);
      // What was lost is written over by what another program added in its place.
      seen.set(event.seq, { state, plays: new Map(plays) });
    }
  }
  return seen;
}

const cuts = fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 1, maxLength: 5 });

test("state(live) = state(replay) at each event of any lawful lesson, also one that was broken off", () => {
  fc.assert(
    fc.property(lawfulLesson, cuts, (lesson, sizes) => {
      const { events } = lesson;
      const replayed = keptAndRead(events, sizes);
      expect(replayed).toEqual(events);
      const live = seenLive(lesson);
      for (let count = 1; count <= replayed.length; count += 1) {
        const replay = lessonState(replayed.slice(0, count));
        const seen = live.get(count);
        expect(replay).toEqual(seen?.state);
        const event = replayed[count - 1];
        for (const { roundId, round, steps } of replay.rounds) {
          const kind = steppedKind(round);
          // An event leaves the other rounds as they are; in the end all are compared.
          const isOfIt = event?.kind === "round-step" && event.roundId === roundId;
          if (!isOfIt && count < replayed.length) continue;
          const step = steps.map((each) => each.step);
          if (kind) expect(playOf(kind, step)).toEqual(seen?.plays.get(roundId));
        }
      }
    }),
    { numRuns: 150 },
  );
});

test("each take has the same strikes live and in replay, all of its own kit", () => {
  fc.assert(
    fc.property(lawfulLesson, cuts, ({ events }, sizes) => {
      const replayed = keptAndRead(events, sizes);
      const replay = lessonState(replayed);
      for (const take of lessonState(events).rounds.flatMap(({ takes }) => takes)) {
        const again = replay.rounds
          .flatMap(({ takes }) => takes)
          .find(({ takeId }) => takeId === take.takeId);
        const hits = hitsOfTake(events, take);
        expect(again && hitsOfTake(replayed, again)).toEqual(hits);
        expect(hits).toHaveLength(take.hitCount);
        const ofKit = events.flatMap((event) =>
          event.kind === "hit" && event.lane === take.lane ? [event.hit] : [],
        );
        expect(hits.every((hit) => ofKit.includes(hit))).toBe(true);
      }
    }),
    { numRuns: 100 },
  );
});

test("these lessons hold every kind of event on more than one kit, and are broken off in every way", () => {
  const lessons = fc.sample(lawfulLesson, { numRuns: 1200, seed: 6 });
  const all = lessons.flatMap(({ events }) => events);
  const kinds = sessionEventSchema.options.flatMap((each) => [...each.unwrap().shape.kind.values]);
  const seen = (lane: (lane: number) => boolean): readonly string[] =>
    kinds.filter((kind) => all.some((event) => event.kind === kind && lane(event.lane)));
  expect(seen(() => true)).toEqual(kinds);
  const ofTheWhole = ["lesson-began", "taken-up-again", "lesson-ended"];
  expect(seen((lane) => lane > 0)).toEqual(kinds.filter((kind) => !ofTheWhole.includes(kind)));
  expect(lessons.some(({ sittings }) => sittings.length > 2)).toBe(true);
  const takes = lessons.flatMap(({ events }) => lessonState(events).rounds.flatMap((round) => round.takes));
  expect(takes.some(({ brokenOff, hitCount }) => brokenOff && hitCount > 0)).toBe(true);
  expect(takes.some(({ judgement, brokenOff }) => judgement && brokenOff)).toBe(true);
  // Steps of every round that has them, and each of them leads somewhere.
  for (const kind of STEPPED_KINDS) {
    const plays = lessons.flatMap(({ events }) =>
      lessonState(events).rounds.flatMap(({ round, steps }) =>
        round === kind
          ? [
              playOf(
                kind,
                steps.map(({ step }) => step),
              ),
            ]
          : [],
      ),
    );
    expect(
      plays.some(({ own }) => ROUND_RULES[kind].shown(own as never).length > 0),
      kind,
    ).toBe(true);
  }
});
