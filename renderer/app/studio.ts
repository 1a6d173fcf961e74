/**
 * What is kept of the studio (its students, its lessons) and the book the lesson that is on is written in. Put together
 * once, without what only a round needs.
 */
import { FiveLeft } from "../screens/desk/fiveLeft.ts";
import { IN_THE_PAGE, Roster } from "../screens/roster/roster.ts";
import { BackUpAfterLessons } from "../screens/studio/backUpAfterLessons.ts";
import { type BrokenOff, LessonBook } from "../session/lessonBook.ts";
import { Store } from "../session/store.ts";
import { shellDoorOf } from "../shell/index.ts";
import { StudioDatabase, storeErrorOf } from "../store/index.ts";
import { Players } from "./players.ts";

export interface Studio {
  readonly database: StudioDatabase;
  readonly roster: Roster;
  readonly book: LessonBook;
  /** Who sits at which kit in the lesson that is on. */
  readonly players: Players;
  /** A lesson that was broken off, to be gone on with or left. */
  readonly brokenOff: BrokenOffLesson;
  readonly backUps: BackUpAfterLessons;
  /** The rounds dealt for the minutes that are left, while they are played. */
  readonly fiveLeft: FiveLeft;
}

/** The lesson that was found broken off when the program was opened; why that is not known, as `trouble`. */
export class BrokenOffLesson extends Store<
  { readonly found: BrokenOff; readonly trouble: string | null },
  { readonly found: BrokenOff; readonly trouble: string | null }
> {
  readonly #book: LessonBook;

  constructor(book: LessonBook) {
    super({ found: { kind: "none" }, trouble: null }, (_, found) => found);
    this.#book = book;
  }

  look(): Promise<void> {
    return this.#orTrouble(async () => {
      this.dispatch({ found: await this.#book.open(), trouble: null });
    });
  }

  /** Goes on with it. */
  goOn(): Promise<void> {
    return this.#done((lessonId) => this.#book.goOn(lessonId));
  }

  /** Ends it where it was last heard. */
  leave(): Promise<void> {
    return this.#done((lessonId) => this.#book.leave(lessonId));
  }

  async #done(act: (lessonId: string) => Promise<void>): Promise<void> {
    const { found } = this.get();
    if (found.kind !== "open") return;
    await this.#orTrouble(async () => {
      await act(found.lessonId);
      this.dispatch({ found: { kind: "none" }, trouble: null });
    });
  }

  async #orTrouble(act: () => Promise<void>): Promise<void> {
    try {
      await act();
    } catch (error) {
      this.dispatch({ ...this.get(), trouble: storeErrorOf(error).message });
    }
  }
}

/** Opens the studio of this computer. */
export function openStudio(): Studio {
  const database = new StudioDatabase();
  const book = new LessonBook(database);
  const roster = new Roster(database, IN_THE_PAGE, window.localStorage);
  const brokenOff = new BrokenOffLesson(book);
  roster.follow();
  void brokenOff.look();
  const players = new Players(database, book.log, roster, window.localStorage);
  const backUps = new BackUpAfterLessons(book.log, async () => {
    if (!shellDoorOf(window)) return;
    await book.writer.write();
    const { backUpToFolder } = await import("../screens/studio/backUpToFile.ts");
    await backUpToFolder(database, new Date().toISOString());
  });
  const fiveLeft = new FiveLeft(book.log);
  return { database, roster, book, players, brokenOff, backUps, fiveLeft };
}
