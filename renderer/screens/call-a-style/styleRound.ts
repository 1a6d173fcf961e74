/**
 * Runs a round of Call a Style: carries the strikes of the session to the judge, asks it now and then what it
 * hears, and hands over the whole take at the end.
 */
import { type ListenedFor, NOTHING_OF_SHELF, styleById } from "../../../engine/catalogue/index.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import type { Click } from "../../../engine/listening/index.ts";
import {
  BREATH_SECONDS,
  NEW_ROUND,
  ownTakesOf,
  type Player,
  type RoundEvent,
  roundAfter,
  type Sitting,
  takesTogether,
} from "../../../engine/rounds/index.ts";
import {
  beatsPerBar,
  type ClickWay,
  FOUR_FOUR,
  type Groove,
  isPlayedClick,
  type Metre,
  type PlayedClick,
  plainClick,
} from "../../../engine/score/index.ts";
import { beatSeconds, type Milliseconds } from "../../../engine/units/index.ts";
import type { SoundDesk } from "../../audio/soundDesk.ts";
import type { Judge } from "../../judging/judge.ts";
import type { KitLog } from "../../session/kitLog.ts";
import { Store } from "../../session/store.ts";

/** From one answer of the judge to the next question. Twice a second is all a reader can follow. */
const ASK_EVERY_MS: Milliseconds = 500;

/** Metre of what was called; `undefined` for a free choice. */
export function metreOfCalled(styleId: string | null, shelfGroove?: Groove): Metre | undefined {
  return (shelfGroove ?? (styleId === null ? undefined : styleById(styleId))?.variants[0])?.metre;
}

/** Felt beats in a bar of what was called; of a free choice those of the click, four without one. */
export function beatsOfCalled(
  styleId: string | null,
  click: Click | null = null,
  shelfGroove?: Groove,
): number {
  const ofClick = click && isPlayedClick(click) ? click.way.metre : undefined;
  return beatsPerBar(metreOfCalled(styleId, shelfGroove) ?? ofClick ?? FOUR_FOUR);
}

const ANYBODY: Player = { studentId: null, level: "steady", own: [] };

/** What a round asks of the judge. */
export type TakeJudge = Pick<Judge, "begin" | "add" | "hear" | "judge">;

/** The strikes of a take up to an entry of the log; `isLive` when all were played, none read at once. */
interface Taken {
  readonly entry: number;
  readonly isLive: boolean;
  readonly hits: readonly Hit[];
}

/** A first stroke half a beat ahead of the first beat that counts still belongs to the take. */
function belongs({ time }: Hit, click: Click | null): boolean {
  return click === null || time >= click.from - beatSeconds(click.tempoBpm) / 2;
}

export class StyleRound extends Store<Sitting, RoundEvent> {
  readonly #log: KitLog;
  readonly #judge: TakeJudge;
  readonly #sound: SoundDesk;
  readonly #wayIn: (metre: Metre | undefined) => ClickWay;
  readonly #listenedFor: (called: Groove | undefined) => ListenedFor;
  readonly #player: () => Player;
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** The strikes of the take up to an entry of the log. */
  #taken: Taken = { entry: 0, isLive: true, hits: [] };
  /** How many of them the judge has been given. */
  #given = 0;

  /**
   * @param wayIn how the click goes in a metre, or in the one that is set for a free choice.
   * @param shelf what of the Shelf is listened for, with the groove that is called; the same object while it is the same.
   * @param player who sits at the kit.
   */
  constructor(
    log: KitLog,
    judge: TakeJudge,
    sound: SoundDesk,
    wayIn: (metre: Metre | undefined) => ClickWay = (metre) => plainClick(metre ?? FOUR_FOUR),
    shelf: (called: Groove | undefined) => ListenedFor = () => NOTHING_OF_SHELF,
    player: () => Player = () => ANYBODY,
  ) {
    super(NEW_ROUND, roundAfter);
    this.#wayIn = wayIn;
    this.#listenedFor = shelf;
    this.#player = player;
    this.#log = log;
    this.#judge = judge;
    this.#sound = sound;
  }

  /**
   * The strikes of the take so far: all since the start, but not those during the count-in. The same array as
   * long as nothing was added.
   */
  hits(): readonly Hit[] {
    const { at } = this.get();
    if (at.stage !== "playing") return [];
    const { entry, hits } = this.#taken;
    const length = this.#log.get();
    if (entry < length) {
      const isLive = this.#taken.isLive && this.#log.isLiveSince(entry);
      const fresh = this.#log.hitsSince(entry).filter((hit) => !isLive || belongs(hit, at.click));
      this.#taken = { entry: length, isLive, hits: fresh.length > 0 ? [...hits, ...fresh] : hits };
    }
    return this.#taken.hits;
  }

  /** Begins a take. Call it from the user's own action, because of the click's sound. */
  start(): void {
    const { asked, at, takes } = this.get();
    if (at.stage === "playing" || at.stage === "judging") return;
    this.#given = 0;
    this.#taken = { entry: this.#log.get(), isLive: true, hits: [] };
    const own = takesTogether(this.#player().own, ownTakesOf(takes));
    this.#judge.begin(asked.styleId, own, this.#listenedFor(asked.shelfGroove));
    this.dispatch({ kind: "started", click: this.#startClick(asked) });
    this.#askSoon();
  }

  /** Once more what was called: at once, or as soon as the take before it is thought over. */
  again(): void {
    if (this.get().at.stage === "judging") this.dispatch({ kind: "again-asked" });
    else this.start();
  }

  #startClick(asked: Sitting["asked"]): PlayedClick | null {
    if (!asked.click) return null;
    const way = drawn(this.#wayIn(metreOfCalled(asked.styleId, asked.shelfGroove)));
    const { tempoBpm } = asked;
    const countInBars = asked.countIn ? 1 : 0;
    const counted = countInBars * beatsPerBar(way.metre) * beatSeconds(tempoBpm);
    const click = { way, tempoBpm, countInBars, from: performance.now() / 1000 + BREATH_SECONDS + counted };
    void this.#sound.startClick(click);
    return click;
  }

  /** Ends the take and has it judged. */
  async stop(): Promise<void> {
    const { at, asked } = this.get();
    if (at.stage !== "playing") return;
    const hits = this.hits();
    const { level } = this.#player();
    clearTimeout(this.#timer);
    this.#sound.stopClick();
    this.dispatch({ kind: "stopped", hits });
    const thoughtOver = takeThoughtOver(this.get());
    // Where another player has sat down meanwhile, it may be another take that is thought over: what comes of this one is dropped.
    const isThisTake = (): boolean => takeThoughtOver(this.get()) === thoughtOver;
    try {
      // A file that was read at once was not played to the click.
      const click = this.#taken.isLive ? at.click : null;
      const judgement = await this.#judge.judge({ hits, styleId: asked.styleId, click, level });
      if (!isThisTake()) return;
      const before = this.get().at;
      this.dispatch({ kind: "judged", judgement });
      if (before.stage === "judging" && before.isAgainAsked) this.start();
    } catch (error) {
      if (!isThisTake()) return;
      this.dispatch({ kind: "failed", reason: error instanceof Error ? error.message : String(error) });
    }
  }

  /** Another player sits down; a take that is under way is dropped. */
  changePlayer(): void {
    clearTimeout(this.#timer);
    if (this.get().at.stage === "playing") this.#sound.stopClick();
    this.dispatch({ kind: "another-player" });
  }

  #askSoon(): void {
    this.#timer = setTimeout(() => void this.#ask(), ASK_EVERY_MS);
  }

  async #ask(): Promise<void> {
    const hits = this.hits();
    if (hits.length > this.#given) {
      this.#judge.add(hits.slice(this.#given));
      this.#given = hits.length;
      try {
        this.dispatch({ kind: "heard", hearing: await this.#judge.hear() });
      } catch (error) {
        this.dispatch({
          kind: "listening-stopped",
          reason: error instanceof Error ? error.message : String(error),
        });
        return;
      }
    }
    if (this.get().at.stage === "playing") this.#askSoon();
  }
}

/** The strokes of the take that is thought over, as one and the same list as long as it is. */
function takeThoughtOver({ at }: Sitting): readonly Hit[] | undefined {
  return at.stage === "judging" ? at.hits : undefined;
}

/** Gaps by chance fall differently in every take. */
function drawn(way: ClickWay): ClickWay {
  if (way.gaps.kind !== "chance") return way;
  return { ...way, gaps: { ...way.gaps, seed: Math.floor(Math.random() * 2 ** 32) } };
}
