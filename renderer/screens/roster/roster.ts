/**
 * The studio's students and groups as the program holds them: read from the database, kept in it, followed while other
 * windows change it. Every change can be taken back, the latest first; erasing alone cannot.
 */
import { liveQuery, type Subscription } from "dexie";
import type { z } from "zod";
import { type Group, groupSchema, type Student, studentSchema } from "../../../engine/records/index.ts";
import type { KeepingPlace } from "../../session/keepingPlace.ts";
import { Store } from "../../session/store.ts";
import {
  groupsOf,
  StoreError,
  type StudioDatabase,
  storeErrorOf,
  studentsOf,
  told,
} from "../../store/index.ts";
import { keepTaughtBefore, readTaughtBefore } from "./taughtBefore.ts";

export interface RosterState {
  /** `null` until they are read. By nickname; archived ones too. */
  readonly students: readonly Student[] | null;
  readonly groups: readonly Group[];
  /** Whether there were students before, though there may be none now; invented ones do not count. */
  readonly taughtBefore: boolean;
  /** What the latest change was, as a clause: "Bram archived"; `null` where there is nothing to take back. */
  readonly undoable: string | null;
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
}

export const IN_THE_PAGE: Making = {
  id: () => crypto.randomUUID(),
  now: () => new Date().toISOString(),
};

/** What the teacher says of a student; the rest is the program's. */
export type StudentFields = Pick<Student, "nickname" | "level" | "hand" | "notes" | "lessonDay" | "consent">;

/** A step back. */
interface Step {
  readonly words: string;
  readonly back: () => Promise<void>;
}

/** So many changes can be taken back. Our choice. */
const MOST_STEPS = 50;

export class Roster extends Store<RosterState, Partial<RosterState>> {
  readonly #database: StudioDatabase;
  readonly #making: Making;
  readonly #place: KeepingPlace | undefined;
  readonly #steps: Step[] = [];
  #following: Subscription | undefined;
  /** Changes wait for one another, so that two keys in quick succession are two changes. */
  #latest: Promise<void> = Promise.resolve();

  /** @param place where it is kept that there were students. */
  constructor(database: StudioDatabase, making: Making = IN_THE_PAGE, place?: KeepingPlace) {
    super(
      {
        students: null,
        groups: [],
        taughtBefore: readTaughtBefore(place),
        undoable: null,
        said: null,
        trouble: null,
      },
      (state, change) => ({ ...state, ...change }),
    );
    this.#place = place;
    this.#database = database;
    this.#making = making;
  }

  /** Reads, and reads again whenever the students or groups change, in whatever window. */
  follow(): void {
    const { students, groups } = this.#database;
    // The query only wakes: reading may set broken rows aside, which a query must not.
    this.#following ??= liveQuery(() => Promise.all([students.toArray(), groups.toArray()])).subscribe({
      next: () => void this.read(),
      error: (error) => this.dispatch({ students: [], trouble: storeErrorOf(error).message }),
    });
  }

  stop(): void {
    this.#following?.unsubscribe();
    this.#following = undefined;
  }

  async read(): Promise<void> {
    await this.#orTrouble(async () => {
      const [students, groups] = await Promise.all([studentsOf(this.#database), groupsOf(this.#database)]);
      const taughtBefore = this.get().taughtBefore || students.some(({ invented }) => !invented);
      if (taughtBefore && !this.get().taughtBefore) keepTaughtBefore(this.#place);
      this.dispatch({ students, groups, taughtBefore });
    });
  }

  student(id: string): Student | undefined {
    return this.get().students?.find((each) => each.id === id);
  }

  /** Adds a student. Returns the id, or `null` where it could not be kept. */
  async add(fields: StudentFields): Promise<string | null> {
    const student: Student = {
      version: 1,
      id: this.#making.id(),
      archived: false,
      addedAt: this.#making.now(),
      ...fields,
    };
    const isDone = await this.#keepStudent(student, `${student.nickname} added`, undefined);
    return isDone ? student.id : null;
  }

  /** Changes what is said of a student. */
  async change(id: string, fields: StudentFields): Promise<boolean> {
    const before = this.student(id);
    if (!before) return false;
    const { lessonDay: _day, consent: _consent, ...rest } = before;
    const after: Student = { ...rest, ...fields };
    return this.#keepStudent(after, `${after.nickname} changed`, before);
  }

  /** Puts a student among those who no longer come, or takes them back. */
  async archive(id: string, archived: boolean): Promise<boolean> {
    const before = this.student(id);
    if (!before) return false;
    const words = `${before.nickname} ${archived ? "archived" : "back from the archive"}`;
    return this.#keepStudent({ ...before, archived }, words, before);
  }

  /** Makes a group, or changes one. */
  keepGroup(group: Pick<Group, "name" | "studentIds"> & { readonly id?: string }): Promise<boolean> {
    const before = this.get().groups.find(({ id }) => id === group.id);
    const after: Group = {
      ...before,
      version: 1,
      id: before?.id ?? this.#making.id(),
      name: group.name,
      studentIds: group.studentIds,
    };
    const { groups } = this.#database;
    return this.#change(
      `the group ${after.name} ${before ? "changed" : "made"}`,
      async () => {
        await told(() => groups.put(checked(groupSchema, after)));
      },
      async () => {
        await told(async () => (before ? void (await groups.put(before)) : groups.delete(after.id)));
      },
    );
  }

  dissolveGroup(id: string): Promise<boolean> {
    const before = this.get().groups.find((group) => group.id === id);
    if (!before) return Promise.resolve(false);
    const { groups } = this.#database;
    return this.#change(
      `the group ${before.name} dissolved`,
      () => told(() => groups.delete(id)),
      async () => {
        await told(() => groups.put(before));
      },
    );
  }

  /**
   * Makes a change that somebody else knows how to make and to take back.
   *
   * @param words as a clause: "Bram and Bram B. made one".
   */
  changeBy(words: string, forth: () => Promise<void>, back: () => Promise<void>): Promise<boolean> {
    return this.#change(words, forth, back);
  }

  /** Takes back the latest change. */
  undo(): Promise<void> {
    return this.#inTurn(async () => {
      const step = this.#steps.at(-1);
      if (!step) return;
      await step.back();
      this.#steps.pop();
      this.dispatch({
        said: `Undone: ${step.words}.`,
        undoable: this.#steps.at(-1)?.words ?? null,
        trouble: null,
      });
      await this.read();
    });
  }

  /** Says what was done elsewhere; what could be taken back no longer can, where it would bring erased things back. */
  tell(said: string, { forgetSteps = false }: { readonly forgetSteps?: boolean } = {}): void {
    if (forgetSteps) this.#steps.length = 0;
    this.dispatch({ said, trouble: null, undoable: this.#steps.at(-1)?.words ?? null });
  }

  #keepStudent(student: Student, words: string, before: Student | undefined): Promise<boolean> {
    const { students } = this.#database;
    return this.#change(
      words,
      async () => {
        await told(() => students.put(checked(studentSchema, student)));
      },
      async () => {
        await told(async () => (before ? void (await students.put(before)) : students.delete(student.id)));
      },
    );
  }

  async #change(words: string, forth: () => Promise<void>, back: () => Promise<void>): Promise<boolean> {
    let isDone = false;
    await this.#inTurn(async () => {
      await forth();
      isDone = true;
      this.#steps.push({ words, back });
      this.#steps.splice(0, this.#steps.length - MOST_STEPS);
      this.dispatch({ said: `${upperFirst(words)}.`, undoable: words, trouble: null });
      await this.read();
    });
    return isDone;
  }

  #inTurn(act: () => Promise<void>): Promise<void> {
    this.#latest = this.#latest.then(() => this.#orTrouble(act));
    return this.#latest;
  }

  async #orTrouble(act: () => Promise<void>): Promise<void> {
    try {
      await act();
    } catch (error) {
      this.dispatch({ trouble: storeErrorOf(error).message, said: null });
    }
  }
}

/** @throws StoreError with a sentence for the first thing that is not as it should be. */
function checked<Value>(schema: z.ZodType<Value>, value: Value): Value {
  const read = schema.safeParse(value);
  if (read.success) return read.data;
  const where = String(read.error.issues[0]?.path[0] ?? "something");
  throw new StoreError(`It cannot be kept: ${FIELD_WORDS[where] ?? `${where} is not as it should be`}.`);
}

const FIELD_WORDS: Readonly<Record<string, string>> = {
  nickname: "a nickname is needed, of at most 60 letters",
  name: "a name is needed, of at most 60 letters",
  notes: "the notes are longer than 4000 letters",
  lessonDay: "the lesson day needs a day, a time such as 15:30 and 5 to 240 minutes",
  consent: "the consent note needs who agreed, and the day",
};

function upperFirst(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
