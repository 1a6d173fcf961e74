/**
 * What the demonstration panel sets and starts: a style, its tempo, bars and seed; a MIDI file; the stop.
 */
import { grooveById, STYLES } from "../../engine/catalogue/index.ts";
import { usualTempo } from "../../engine/score/index.ts";
import type { Session } from "../session/session.ts";
import { Store } from "../session/store.ts";
import { type DemonstrationAsked, fileMessages, grooveMessages, type Piece, PieceError } from "./piece.ts";

export interface DeskState {
  readonly asked: DemonstrationAsked;
  /** The file that was handed over last, ready to be played. */
  readonly file: Piece | null;
  /** Why the last thing asked for could not be played. */
  readonly trouble: string | null;
}

type DeskEvent =
  | { readonly kind: "asked"; readonly asked: Partial<DemonstrationAsked> }
  | { readonly kind: "file"; readonly file: Piece }
  | { readonly kind: "trouble"; readonly reason: string | null };

/** Takes with other seeds are other performances of the same groove. */
const FIRST_SEED = 7;

function firstAsked(): DemonstrationAsked {
  const style = STYLES[0];
  const groove = style?.variants[0];
  return { styleId: style?.id ?? "", tempoBpm: groove ? usualTempo(groove) : 100, bars: 8, seed: FIRST_SEED };
}

function reduce(state: DeskState, event: DeskEvent): DeskState {
  switch (event.kind) {
    case "asked": {
      const asked = { ...state.asked, ...event.asked };
      const groove = event.asked.styleId === undefined ? undefined : grooveById(event.asked.styleId);
      return { ...state, trouble: null, asked: groove ? { ...asked, tempoBpm: usualTempo(groove) } : asked };
    }
    case "file":
      return { ...state, trouble: null, file: event.file };
    case "trouble":
      return { ...state, trouble: event.reason };
  }
}

export class DemonstrationDesk extends Store<DeskState, DeskEvent> {
  readonly #session: Session;

  constructor(session: Session) {
    super({ asked: firstAsked(), file: null, trouble: null }, reduce);
    this.#session = session;
  }

  /** Sets a part of what to demonstrate; another style brings its own usual tempo. */
  ask(asked: Partial<DemonstrationAsked>): void {
    this.dispatch({ kind: "asked", asked });
  }

  playGroove(): void {
    this.#orTrouble(() => {
      this.#session.demonstration.play(grooveMessages(this.get().asked, this.#session.kitMap.get().map));
    });
  }

  /** Reads a MIDI file and keeps it ready. */
  async takeFile(file: File): Promise<void> {
    try {
      const bytes = new Uint8Array(await file.arrayBuffer());
      this.#orTrouble(() => this.dispatch({ kind: "file", file: fileMessages(file.name, bytes) }));
    } catch (error) {
      this.dispatch({
        kind: "trouble",
        reason: `${file.name} could not be read (${String(error)}). Choose it again.`,
      });
    }
  }

  playFile(pace: "at true speed" | "at once"): void {
    const { file } = this.get();
    if (!file) return;
    if (pace === "at once") this.#session.demonstration.playAtOnce(file);
    else this.#session.demonstration.play(file);
  }

  #orTrouble(act: () => void): void {
    try {
      this.dispatch({ kind: "trouble", reason: null });
      act();
    } catch (error) {
      if (!(error instanceof PieceError)) throw error;
      this.dispatch({ kind: "trouble", reason: error.message });
    }
  }
}
