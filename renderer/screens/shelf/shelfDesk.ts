/**
 * What lies open on the Shelf screen. It outlives the screen: whoever looks something up elsewhere finds a half-written
 * entry as it was left.
 */
import {
  EntryError,
  type EntryKind,
  type ShelfEntry,
  type ShelfFilter,
} from "../../../engine/catalogue/index.ts";
import { GridError } from "../../../engine/score/index.ts";
import { Store } from "../../session/store.ts";
import { type Shelf, StoreError } from "../../store/index.ts";
import { blank, copied, type Draft, entryOf, keptAs, opened } from "./draft.ts";

export type ShelfView =
  | { readonly at: "browse" }
  | { readonly at: "open"; readonly draft: Draft }
  | { readonly at: "record" }
  | { readonly at: "import" };

export interface ShelfDeskState {
  readonly view: ShelfView;
  readonly typed: string;
  readonly filter: ShelfFilter;
  /** The entry in focus in the list. */
  readonly chosenId: string | null;
  /** What was put away last, to be brought back. */
  readonly putAway: ShelfEntry | null;
  /** What was done, in a sentence. */
  readonly said: string | null;
  /** Why something was not done. */
  readonly trouble: string | null;
}

const AT_FIRST: ShelfDeskState = {
  view: { at: "browse" },
  typed: "",
  filter: {},
  chosenId: null,
  putAway: null,
  said: null,
  trouble: null,
};

/** What makes ids and tells the time, passed in. */
export interface Making {
  readonly id: () => string;
  readonly nowMs: () => number;
}

export const IN_THE_PAGE: Making = { id: () => `own/${crypto.randomUUID()}`, nowMs: () => Date.now() };

export class ShelfDesk extends Store<ShelfDeskState, Partial<ShelfDeskState>> {
  readonly #shelf: Shelf;
  readonly #making: Making;

  constructor(shelf: Shelf, making: Making = IN_THE_PAGE) {
    super(AT_FIRST, (state, change) => ({ ...state, ...change }));
    this.#shelf = shelf;
    this.#making = making;
  }

  /** Looks for something else; the first of what is found is in focus. */
  find(change: Partial<Pick<ShelfDeskState, "typed" | "filter">>): void {
    this.dispatch({ ...change, chosenId: null });
  }

  open(id: string): void {
    const entry = this.#shelf.index.get(id);
    if (!entry) return;
    this.#orTrouble(() => this.#show({ at: "open", draft: opened(entry) }, { chosenId: id }));
  }

  write(kind: EntryKind): void {
    this.show(blank(kind, this.newEntry()));
  }

  /** Opens what was made elsewhere, not kept yet. */
  show(draft: Draft): void {
    this.#show({ at: "open", draft });
  }

  record(): void {
    this.#show({ at: "record" });
  }

  import(): void {
    this.#show({ at: "import" });
  }

  /** Back to the list. What was changed and not kept is gone: ask before. */
  leave(): void {
    this.#show({ at: "browse" });
  }

  newEntry(): Pick<Draft, "id" | "madeAtMs"> {
    return { id: this.#making.id(), madeAtMs: this.#making.nowMs() };
  }

  change(change: (draft: Draft) => Draft): void {
    const { view } = this.get();
    if (view.at !== "open") return;
    const draft = change(view.draft);
    if (draft !== view.draft) this.dispatch({ view: { at: "open", draft }, trouble: null, said: null });
  }

  /** Keeps what is open. What cannot be kept stays open, and is said. */
  async keep(): Promise<void> {
    const { view } = this.get();
    if (view.at !== "open") return;
    await this.#orTroubleLater(async () => {
      const entry = entryOf(view.draft, this.#making.nowMs());
      await this.#shelf.keep(entry);
      this.dispatch({ chosenId: entry.id });
      this.change((draft) => (draft.now === view.draft.now ? keptAs(draft, entry) : draft));
      this.dispatch({ said: `"${entry.name}" is kept.`, trouble: null });
    });
  }

  copy(): void {
    this.change((draft) => copied(draft, this.newEntry()));
  }

  /** Takes what is open off the Shelf; it can be brought back. */
  async putAway(): Promise<void> {
    const { view } = this.get();
    const entry = view.at === "open" ? this.#shelf.index.get(view.draft.id) : undefined;
    if (!entry) return this.leave();
    await this.#orTroubleLater(async () => {
      await this.#shelf.putAway(entry);
      this.#show({ at: "browse" }, { putAway: entry, said: `"${entry.name}" was put away.` });
    });
  }

  async bringBack(): Promise<void> {
    const { putAway } = this.get();
    if (!putAway) return;
    await this.#orTroubleLater(async () => {
      await this.#shelf.keep(putAway);
      this.dispatch({
        putAway: null,
        said: `"${putAway.name}" is back.`,
        chosenId: putAway.id,
        trouble: null,
      });
    });
  }

  #show(view: ShelfView, change: Partial<ShelfDeskState> = {}): void {
    this.dispatch({ view, trouble: null, said: null, putAway: null, ...change });
  }

  #orTrouble(act: () => void): void {
    try {
      act();
    } catch (error) {
      this.dispatch({ trouble: sentenceOf(error), said: null });
    }
  }

  async #orTroubleLater(act: () => Promise<void>): Promise<void> {
    try {
      await act();
    } catch (error) {
      this.dispatch({ trouble: sentenceOf(error), said: null });
    }
  }
}

/** The sentence of an error that was meant for the teacher; any other is a fault of the program. */
function sentenceOf(error: unknown): string {
  if (error instanceof GridError) return `It cannot be read as it stands. ${error.message}`;
  if (error instanceof EntryError || error instanceof StoreError) return error.message;
  throw error;
}
