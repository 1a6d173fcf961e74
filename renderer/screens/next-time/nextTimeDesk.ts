/**
 * What lies open on the Next Time page: whose list, for which day, and what the teacher does to it. Every act is an event
 * that is kept first and seen when it is kept.
 */
import {
  changeToUndo,
  crossingOff,
  type Day,
  type Destination,
  type ItemChange,
  type ItemId,
  inOrder,
  itemName,
  type ListChange,
  lessonAhead,
  type NextTimeList,
  nextTimeList,
  placeOnList,
  type Section,
  USUAL_RETENTION,
} from "../../../engine/memory/index.ts";
import type { Student } from "../../../engine/records/index.ts";
import { localDay } from "../../../engine/session/index.ts";
import { Store } from "../../session/store.ts";
import { StoreError } from "../../store/index.ts";
import type { NextTimePlace, StudentEvidence } from "./nextTimePlace.ts";

/** A student whose list lies open. */
export interface OpenList {
  readonly student: Student;
  readonly evidence: StudentEvidence;
  /** The lesson the list is for. */
  readonly lessonDay: Day;
  readonly list: NextTimeList;
}

export interface NextTimeState {
  /** `null` until they are read. */
  readonly students: readonly Student[] | null;
  /** Whose list is wanted; it is open once `open` is of that student. */
  readonly studentId: string | null;
  readonly open: OpenList | null;
  readonly retention: number;
  readonly today: Day;
  /** The entry in focus. */
  readonly chosen: ItemId | null;
  /** What was done, in a sentence. */
  readonly said: string | null;
  /** Why something was not done, or cannot be shown. */
  readonly trouble: string | null;
}

/** What makes ids and tells the time, passed in. */
export interface Making {
  readonly id: () => string;
  /** ISO 8601 in UTC. */
  readonly now: () => string;
  /** The studio's zone, by its IANA name. */
  readonly zone: () => string;
}

export const IN_THE_PAGE: Making = {
  id: () => crypto.randomUUID(),
  now: () => new Date().toISOString(),
  zone: () => Intl.DateTimeFormat().resolvedOptions().timeZone,
};

/** What is said of a change that is new: all but who, when and its number. */
type NewChange =
  | {
      readonly kind: "added";
      readonly item: ItemId;
      readonly words: string | null;
      readonly section: Section;
    }
  | { readonly kind: "crossed-off"; readonly item: ItemId }
  | {
      readonly kind: "moved";
      readonly item: ItemId;
      readonly section: Section;
      readonly before: ItemId | null;
    }
  | { readonly kind: "undone"; readonly changeId: string };

/** A change to be kept, what is said of it, and which entry is in focus then. */
interface Act {
  readonly change: NewChange;
  readonly said: string | null;
  readonly chosen: ItemId | null;
}

export class NextTimeDesk extends Store<NextTimeState, Partial<NextTimeState>> {
  readonly #place: NextTimePlace;
  readonly #making: Making;
  /** Changes wait for one another, so that two keys in quick succession are two changes. */
  #latest: Promise<void> = Promise.resolve();
  /** The day the teacher asked for; else the list is for the lesson ahead. */
  #askedDay: Day | null = null;

  constructor(place: NextTimePlace, making: Making = IN_THE_PAGE) {
    super(
      {
        students: null,
        studentId: null,
        open: null,
        retention: USUAL_RETENTION,
        today: localDay(making.now(), making.zone()),
        chosen: null,
        said: null,
        trouble: null,
      },
      (state, change) => ({ ...state, ...change }),
    );
    this.#place = place;
    this.#making = making;
  }

  /** Reads the students anew, and the list that is open; the first student's where none is wanted yet. */
  async read(wantedId: string | null = this.get().studentId): Promise<void> {
    this.dispatch({ today: localDay(this.#making.now(), this.#making.zone()) });
    await this.#orTrouble(async () => {
      const [students, retention] = await Promise.all([this.#place.students(), this.#place.retention()]);
      this.dispatch({ students, retention, trouble: null });
      const student = students.find(({ id }) => id === wantedId) ?? students[0];
      if (student) await this.#openList(student);
    });
  }

  /** Opens the list of another student. */
  async choose(studentId: string): Promise<void> {
    const student = this.get().students?.find(({ id }) => id === studentId);
    if (!student || studentId === this.get().studentId) return;
    await this.#orTrouble(() => this.#openList(student));
  }

  /** Reads again whenever something changes for the student whose list is open. Returns the way to stop. */
  follow(): () => void {
    const { studentId } = this.get();
    if (studentId === null) return () => undefined;
    return this.#place.follow(studentId, () => {
      // After what is being kept: else the list would be read without it.
      this.#latest = this.#latest.then(() => this.read());
    });
  }

  async #openList(student: Student): Promise<void> {
    const wasOpen = this.get().studentId === student.id;
    if (!wasOpen) this.#askedDay = null;
    this.dispatch({ studentId: student.id, ...(wasOpen ? {} : { open: null, chosen: null, said: null }) });
    const evidence = await this.#place.evidenceOf(student);
    // Another student may have been wanted in the meantime.
    if (this.get().studentId !== student.id) return;
    const lastHeld = inOrder(evidence.results).at(-1)?.day ?? null;
    const lessonDay = this.#askedDay ?? lessonAhead(this.get().today, student.lessonDay?.weekday, lastHeld);
    this.#show({ student, evidence, lessonDay });
  }

  /** Makes the list for another day. */
  forDay(lessonDay: Day): void {
    const { open } = this.get();
    this.#askedDay = lessonDay;
    if (open) this.#show({ ...open, lessonDay });
  }

  /** Sets how likely what is not on the list should still be held. */
  async want(retention: number): Promise<void> {
    await this.#orTrouble(async () => {
      await this.#place.keepRetention(retention);
      this.dispatch({ retention, trouble: null });
      const { open } = this.get();
      if (open) this.#show(open);
    });
  }

  #show({ student, evidence, lessonDay }: Omit<OpenList, "list">): void {
    const { retention, chosen } = this.get();
    const list = nextTimeList({ results: evidence.results, changes: evidence.changes, lessonDay, retention });
    const first = [...list.refresh, ...list.new][0]?.item ?? null;
    const still = chosen !== null && placeOnList(list, chosen) !== null;
    this.dispatch({ open: { student, evidence, lessonDay, list }, chosen: still ? chosen : first });
  }

  add(item: ItemId, section: Section): Promise<void> {
    return this.#change(() => ({
      change: { kind: "added", item, words: null, section },
      said: `${this.#nameOf(item)} is on the list.`,
      chosen: item,
    }));
  }

  /** Adds a line in the teacher's own words. */
  addWords(words: string, section: Section): Promise<void> {
    const item: ItemId = `own:${this.#making.id()}`;
    return this.#change(() => ({
      change: { kind: "added", item, words, section },
      said: `“${words}” is on the list.`,
      chosen: item,
    }));
  }

  /** Crosses an entry off; the one after it is in focus then. */
  crossOff(item: ItemId): Promise<void> {
    return this.#change(() => {
      if (placeOnList(this.#list(), item) === null) return null;
      const said = `${this.#nameOf(item)} is crossed off. Undo brings it back.`;
      return { change: { kind: "crossed-off", item }, said, chosen: this.#neighbourOf(item) };
    });
  }

  /** Moves an entry, when there is somewhere to move it to. */
  move(item: ItemId, from: (list: NextTimeList, item: ItemId) => Destination | null): Promise<void> {
    return this.#change(() => {
      const to = from(this.#list(), item);
      return to && { change: { kind: "moved", item, ...to }, said: null, chosen: item };
    });
  }

  /** Puts back what was crossed off. */
  putBack(item: ItemId): Promise<void> {
    return this.#change(() => {
      const off = crossingOff(this.#changes(), item);
      const said = `${this.#nameOf(item)} is back on the list.`;
      return off ? { change: { kind: "undone", changeId: off.id }, said, chosen: item } : null;
    });
  }

  /** Takes back the latest change that holds. */
  undo(): Promise<void> {
    return this.#change(() => {
      const latest = changeToUndo(this.#changes());
      if (!latest) return null;
      const said = `Undone: ${this.changeWords(latest)}.`;
      return { change: { kind: "undone", changeId: latest.id }, said, chosen: latest.item };
    });
  }

  /** A change, as a clause. */
  changeWords(change: ItemChange): string {
    const name = change.kind === "added" && change.words !== null ? change.words : this.#nameOf(change.item);
    switch (change.kind) {
      case "added":
        return `${name} added`;
      case "crossed-off":
        return `${name} crossed off`;
      case "moved":
        return `${name} moved`;
    }
  }

  #nameOf(item: ItemId): string {
    return entryName(this.get().open, item);
  }

  #list(): NextTimeList {
    return this.get().open?.list ?? { lessonDay: this.get().today, refresh: [], new: [], crossedOff: [] };
  }

  #changes(): readonly ListChange[] {
    return this.get().open?.evidence.changes ?? [];
  }

  #neighbourOf(item: ItemId): ItemId | null {
    const all = [...this.#list().refresh, ...this.#list().new];
    const at = all.findIndex((each) => each.item === item);
    return (all[at + 1] ?? all[at - 1])?.item ?? null;
  }

  /**
   * Makes a change once those before it are kept.
   *
   * @param act from the list as it then is; `null` where there is nothing to change.
   */
  #change(act: () => Act | null): Promise<void> {
    this.#latest = this.#latest.then(() =>
      this.#orTrouble(async () => {
        const { open } = this.get();
        const acted = open && act();
        if (!acted) return;
        const at = this.#making.now();
        const made: ListChange = {
          version: 1,
          id: this.#making.id(),
          studentId: open.student.id,
          at,
          day: localDay(at, this.#making.zone()),
          ...acted.change,
        };
        await this.#place.keep(made);
        this.#afterKeeping(made, acted);
      }),
    );
    return this.#latest;
  }

  #afterKeeping(made: ListChange, { said, chosen }: Act): void {
    const { open } = this.get();
    // The teacher may have turned to another student while it was kept.
    if (open?.student.id !== made.studentId) return;
    const evidence = { ...open.evidence, changes: [...open.evidence.changes, made] };
    this.dispatch({ said, trouble: null, chosen });
    this.#show({ ...open, evidence });
  }

  async #orTrouble(act: () => Promise<void>): Promise<void> {
    try {
      await act();
    } catch (error) {
      if (!(error instanceof StoreError)) throw error;
      this.dispatch({ trouble: error.message, said: null });
    }
  }
}

/** What an entry is called: the teacher's own words, else the item's name. */
export function entryName(open: OpenList | null, item: ItemId): string {
  const { refresh = [], new: met = [], crossedOff = [] } = open?.list ?? {};
  const words = [...refresh, ...met, ...crossedOff].find((each) => each.item === item)?.words;
  return words ?? itemName(item, open?.evidence.ownNames).name;
}
