/**
 * Who sits at which kit in the lesson that is on: the level that sets the band, and the earlier takes the student's
 * grooves are also known by.
 */
import { z } from "zod";
import type { Player } from "../../engine/rounds/index.ts";
import type { LessonState } from "../../engine/session/index.ts";
import type { Roster } from "../screens/roster/roster.ts";
import type { KeepingPlace } from "../session/keepingPlace.ts";
import { Store, type Watched } from "../session/store.ts";
import { type StudioDatabase, storeErrorOf } from "../store/index.ts";
import { earlierTakes } from "./earlierTakes.ts";

/** Nobody in particular: judged as a steady player, known by no earlier takes. */
export const ANYBODY: Player = { studentId: null, level: "steady", own: [] };

/** Whose turn it is, kept for as long as the lesson is on, so that it holds when the program is opened again. */
const TURN_KEPT_AS = "throneside.turn";
const turnSchema = z.strictObject({ lessonId: z.string(), lane: z.int().min(0) });

export interface PlayersState {
  /** The kit a round listens to: a lane of the lesson. */
  readonly lane: number;
  /** Earlier takes by student, once they are read. */
  readonly own: ReadonlyMap<string, Player["own"]>;
  /** Why the earlier takes could not be read. */
  readonly trouble: string | null;
}

export class Players extends Store<PlayersState, Partial<PlayersState>> {
  readonly #lesson: Watched<LessonState>;
  readonly #roster: Roster;
  readonly #database: StudioDatabase;
  readonly #place: KeepingPlace | undefined;
  #lessonId: string | undefined;

  /** @param place where it is kept whose turn it is; nowhere when not said. */
  constructor(database: StudioDatabase, lesson: Watched<LessonState>, roster: Roster, place?: KeepingPlace) {
    super({ lane: 0, own: new Map(), trouble: null }, (state, change) => ({ ...state, ...change }));
    this.#database = database;
    this.#lesson = lesson;
    this.#roster = roster;
    this.#place = place;
    lesson.subscribe(() => this.#follow());
  }

  /** The student at a kit of the lesson that is on; anybody where none is. */
  at(lane: number): Player {
    const { began, stage } = this.#lesson.get();
    const studentId = stage === "ended" ? null : (began?.lanes[lane]?.studentId ?? null);
    if (studentId === null) return ANYBODY;
    const level = this.#roster.student(studentId)?.level ?? ANYBODY.level;
    return { studentId, level, own: this.get().own.get(studentId) ?? [] };
  }

  /** Turns the round to another kit. */
  turnTo(lane: number): void {
    const { began } = this.#lesson.get();
    const turn = Math.min(Math.max(lane, 0), (began?.lanes.length ?? 1) - 1);
    this.dispatch({ lane: turn });
    if (!began) return;
    const kept: z.infer<typeof turnSchema> = { lessonId: began.lessonId, lane: turn };
    try {
      this.#place?.setItem(TURN_KEPT_AS, JSON.stringify(kept));
    } catch {
      // It holds while the program is open: after that, a press turns to the kit again.
    }
  }

  #follow(): void {
    const { began, stage } = this.#lesson.get();
    const lessonId = stage === "ended" ? undefined : began?.lessonId;
    if (lessonId === this.#lessonId) return;
    this.#lessonId = lessonId;
    const lane = this.#keptTurn(lessonId, began?.lanes.length ?? 1);
    this.dispatch({ lane, own: new Map(), trouble: null });
    for (const studentId of began && lessonId !== undefined ? began.studentIds : [])
      void this.#read(studentId, lessonId);
  }

  #keptTurn(lessonId: string | undefined, lanes: number): number {
    try {
      const kept = turnSchema.safeParse(JSON.parse(this.#place?.getItem(TURN_KEPT_AS) ?? "null"));
      if (kept.success && kept.data.lessonId === lessonId && kept.data.lane < lanes) return kept.data.lane;
    } catch {
      // Unreadable: it is the first kit's turn, and a press turns to the other.
    }
    return 0;
  }

  async #read(studentId: string, lessonId: string | undefined): Promise<void> {
    try {
      const own = await earlierTakes(this.#database, studentId, lessonId);
      if (this.#lessonId === lessonId) this.dispatch({ own: new Map([...this.get().own, [studentId, own]]) });
    } catch (error) {
      this.dispatch({
        trouble: `Earlier takes could not be read, so they help listening nothing today. ${storeErrorOf(error).message}`,
      });
    }
  }
}
