/** What the book of lessons needs of a computer, in the hands of a test: clocks that go when told, locks without a browser. */
import { judgeTake, stockOfPlayer, withShelf } from "../../../engine/rounds/index.ts";
import type { BookPlace } from "../../../renderer/session/lessonBook.ts";
import type { LogClock } from "../../../renderer/session/lessonLog.ts";

/** A session clock and a calendar that go together until the calendar is set. */
export class TestClock implements LogClock {
  seconds = 1000;
  #calendarMs = Date.parse("2026-03-02T15:30:00.000Z");

  readonly now = () => this.seconds;
  readonly instant = () => new Date(this.#calendarMs).toISOString();

  pass(seconds: number): void {
    this.seconds += seconds;
    this.#calendarMs += seconds * 1000;
  }

  setCalendar(at: string): void {
    this.#calendarMs = Date.parse(at);
  }
}

type Held = (lock: Lock | null) => unknown;

/** Web Locks, exclusive ones only: one holder, the others in a row. */
export class TestLocks {
  #queue: { readonly held: Held; readonly done: (value: unknown) => void }[] = [];
  #isHeld = false;

  readonly request: LockManager["request"] = (name: string, ...rest: readonly unknown[]): Promise<never> => {
    const held = rest.at(-1) as Held;
    const options = rest.length > 1 ? (rest[0] as LockOptions) : {};
    const value = new Promise<unknown>((done) => {
      if (this.#isHeld && options.ifAvailable) {
        done(held(null));
        return;
      }
      this.#queue.push({ held, done });
      this.#next(name);
    });
    return value as Promise<never>;
  };

  #next(name: string): void {
    if (this.#isHeld) return;
    const first = this.#queue.shift();
    if (!first) return;
    this.#isHeld = true;
    void Promise.resolve(first.held({ name, mode: "exclusive" })).then((value) => {
      this.#isHeld = false;
      first.done(value);
      this.#next(name);
    });
  }
}

export interface TestPlace extends BookPlace {
  readonly clock: TestClock;
  /** The window is hidden or left. */
  readonly leave: () => void;
}

let ids = 0;

export function testPlace(
  clock = new TestClock(),
  locks = new TestLocks(),
  zone = "Europe/Vienna",
): TestPlace {
  const leaving: (() => void)[] = [];
  return {
    clock,
    writer: {
      locks,
      onLeaving: (write) => leaving.push(write),
      nowMs: () => performance.now(),
    },
    newId: () => {
      ids += 1;
      return `id${ids}`;
    },
    zone: () => zone,
    judge: (take, shelf) =>
      Promise.resolve(judgeTake(take, stockOfPlayer([], withShelf(shelf, take.styleId)))),
    leave: () => {
      for (const write of leaving) write();
    },
  };
}
