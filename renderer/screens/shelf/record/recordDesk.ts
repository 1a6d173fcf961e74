/**
 * Recording by playing: what is struck between start and stop, written down beside the page, with the places that are
 * unsure.
 */
import type { Hit } from "../../../../engine/kit/index.ts";
import type { Unsure } from "../../../../engine/listening/index.ts";
import {
  beatsPerBar,
  type ClickWay,
  FOUR_FOUR,
  type Groove,
  type PlayedClick,
  plainClick,
} from "../../../../engine/score/index.ts";
import { type Bpm, beatSeconds, type Seconds } from "../../../../engine/units/index.ts";
import type { SoundDesk } from "../../../audio/soundDesk.ts";
import type { KitLog } from "../../../session/kitLog.ts";
import { Store } from "../../../session/store.ts";
import type { WrittenDown } from "../writing/writeDown.ts";
import { answered } from "./answered.ts";

export type RecordStage =
  | { readonly stage: "before"; readonly trouble: string | null }
  | { readonly stage: "playing"; readonly click: PlayedClick | null }
  | { readonly stage: "thinking" }
  | {
      readonly stage: "understood";
      readonly written: WrittenDown & { readonly kind: "written" };
      /** What comes round, or all of it. */
      readonly chosen: "round" | "whole";
      /** Places that were meant otherwise than they are written. */
      readonly otherwise: ReadonlySet<number>;
      /** Felt beats, whole and half ones, by which the one lies later than it was heard to. */
      readonly later: number;
    };

export interface RecordState {
  readonly at: RecordStage;
  readonly hasClick: boolean;
  readonly tempoBpm: Bpm;
}

/** Seconds of air between Start and the first click: long enough to lift the sticks. Our choice. */
const BREATH: Seconds = 0.8;

interface Struck {
  readonly hits: readonly Hit[];
  /** Every strike came at its own moment. */
  readonly isLive: boolean;
}

const NOTHING: Struck = { hits: [], isLive: true };

/** Writes a take down beside the page. */
export interface TakeWriter {
  /** @param later felt beats, whole or half, by which the one lies later than it is found to. */
  readonly writeDown: (
    hits: readonly Hit[],
    click: PlayedClick | null,
    later: number,
  ) => Promise<WrittenDown>;
}

export class RecordDesk extends Store<RecordState, Partial<RecordState>> {
  readonly #logs: readonly KitLog[];
  readonly #writer: TakeWriter;
  readonly #sound: Pick<SoundDesk, "startClick" | "stopClick">;
  /** Where each kit's log stood at the start. */
  #from: readonly number[] = [];
  /** What was played, to be written down anew when its beat is moved. */
  #take: { readonly hits: readonly Hit[]; readonly click: PlayedClick | null } | undefined;

  /** @param logs of the kits there are: whichever is played is listened to. */
  constructor(
    logs: readonly KitLog[],
    writer: TakeWriter,
    sound: Pick<SoundDesk, "startClick" | "stopClick">,
  ) {
    super({ at: { stage: "before", trouble: null }, hasClick: false, tempoBpm: 100 }, (state, change) => ({
      ...state,
      ...change,
    }));
    this.#logs = logs;
    this.#writer = writer;
    this.#sound = sound;
  }

  /** Begins. Call it from the user's own action, because of the click's sound. */
  start(way: ClickWay = plainClick(FOUR_FOUR)): void {
    const { hasClick, tempoBpm, at } = this.get();
    if (at.stage === "playing" || at.stage === "thinking") return;
    this.#from = this.#logs.map((log) => log.get());
    const countIn = beatsPerBar(way.metre) * beatSeconds(tempoBpm);
    const from = performance.now() / 1000 + BREATH + countIn;
    const click: PlayedClick | null = hasClick ? { way, tempoBpm, countInBars: 1, from } : null;
    if (click) void this.#sound.startClick(click);
    this.dispatch({ at: { stage: "playing", click } });
  }

  /** What was struck so far; not what was struck during the count-in. */
  hits(): readonly Hit[] {
    const { at } = this.get();
    return at.stage === "playing" ? this.#struck(at.click).hits : [];
  }

  /** Of the kit that was struck most since the start: a tap on another one in passing takes nothing over. */
  #struck(click: PlayedClick | null): Struck {
    const ofKits = this.#logs.map((log, kit) => {
      const from = this.#from[kit] ?? 0;
      const isLive = log.isLiveSince(from);
      const hits = log.hitsSince(from);
      // A first stroke half a beat ahead of the first beat that counts still belongs to it.
      const isOfTake = ({ time }: Hit): boolean =>
        !click || !isLive || time >= click.from - beatSeconds(click.tempoBpm) / 2;
      return { hits: hits.filter(isOfTake), isLive };
    });
    return ofKits.reduce((most, each) => (each.hits.length > most.hits.length ? each : most), NOTHING);
  }

  /** Ends the take and writes it down. */
  async stop(): Promise<void> {
    const { at } = this.get();
    if (at.stage !== "playing") return;
    const { hits, isLive } = this.#struck(at.click);
    const click = isLive ? at.click : null;
    this.#sound.stopClick();
    this.dispatch({ at: { stage: "thinking" } });
    this.#take = { hits, click };
    const written = await this.#writer.writeDown(hits, click, 0);
    if (this.get().at.stage !== "thinking") return;
    if (written.kind === "failed") this.dispatch({ at: { stage: "before", trouble: written.reason } });
    else {
      const chosen = written.round === null ? "whole" : "round";
      this.dispatch({ at: { stage: "understood", written, chosen, otherwise: new Set(), later: 0 } });
    }
  }

  /** Back to before; what was played is gone from here. */
  again(): void {
    this.#sound.stopClick();
    this.dispatch({ at: { stage: "before", trouble: null } });
  }

  choose(chosen: "round" | "whole"): void {
    const { at } = this.get();
    if (at.stage === "understood") this.dispatch({ at: { ...at, chosen } });
  }

  /**
   * The one lies `beats` later, or earlier, than it is written: whole beats move the one, a half moves the beat. It is
   * written down anew, since other strokes are then on the beat; what was answered was asked of another writing.
   */
  async move(beats: number): Promise<void> {
    const { at } = this.get();
    const take = this.#take;
    if (at.stage !== "understood" || !take) return;
    const later = at.later + beats;
    this.dispatch({ at: { ...at, later } });
    const written = await this.#writer.writeDown(take.hits, take.click, later);
    const now = this.get().at;
    // Moved again meanwhile, or gone: another writing is on its way, or none is wanted.
    if (now.stage !== "understood" || this.#take !== take || now.later !== later) return;
    if (written.kind === "failed") {
      this.dispatch({ at: { stage: "before", trouble: written.reason } });
      return;
    }
    const chosen = written.round === null ? "whole" : now.chosen;
    this.dispatch({ at: { ...now, written, chosen, otherwise: new Set() } });
  }

  /** Says how an unsure place was meant. */
  answer(index: number, isOtherwise: boolean): void {
    const { at } = this.get();
    if (at.stage !== "understood") return;
    const otherwise = new Set(at.otherwise);
    if (isOtherwise) otherwise.add(index);
    else otherwise.delete(index);
    this.dispatch({ at: { ...at, otherwise } });
  }
}

/** The music as it would be kept now. */
export function understoodGroove(at: RecordStage & { readonly stage: "understood" }): Groove {
  const { round, whole, unsure } = at.written;
  return at.chosen === "round" && round ? round.groove : answered(whole, unsure, at.otherwise);
}

/** The places to ask about; none where most bars already said how it goes. */
export function questions(at: RecordStage & { readonly stage: "understood" }): readonly Unsure[] {
  return at.chosen === "round" ? [] : at.written.unsure;
}
