/**
 * The room of this program: joined, left, and what is known of it for the screens. What the first kit plays goes out; what
 * the far player plays is heard as the second kit, at its moment on our clock and later by the delay that was chosen, so
 * that a round for two kits is one for two places.
 */
import type { Hit } from "../../engine/kit/index.ts";
import type { DoorAnswered } from "../../engine/records/index.ts";
import {
  chooseDelay,
  type Delay,
  type HeardSummary,
  type MessageOf,
  type Person,
  type PersonId,
  type Presence,
  presenceOf,
  type RoomNews,
  readAddress,
} from "../../engine/rooms/index.ts";
import type { Seconds } from "../../engine/units/index.ts";
import type { KeepingPlace } from "../session/keepingPlace.ts";
import type { KitLog } from "../session/kitLog.ts";
import { Store } from "../session/store.ts";
import { FarKits } from "./farKits.ts";
import { type FarSound, FarStrikes } from "./farStrikes.ts";
import { type FarForm, FormsBetween } from "./formsBetween.ts";
import { type KeptWish, keepWish, readWish } from "./keptWish.ts";
import type { LabKit } from "./labKit.ts";
import { type Connect, RoomConnection, type Standing } from "./roomConnection.ts";

export interface RoomState {
  /** As it was wished the last time; the code is not among it. */
  readonly wish: KeptWish;
  /** `null`: in no room. */
  readonly standing: Standing | null;
  readonly people: readonly Person[];
  readonly barSeconds: Seconds;
  /** For the far player; `null` before anything was measured, or without one. */
  readonly delay: Delay | null;
  /** What the desk has called: `undefined` before it has, `null` for whatever they like. */
  readonly called: string | null | undefined;
  readonly troubles: readonly string[];
  /** The room that was opened on this computer by the shell, whether or not it was joined; `null`: none. */
  readonly openHere: OpenHere | null;
}

/** What those who join have to know. */
export type OpenHere = Omit<Extract<DoorAnswered<"openRoom">, { readonly kind: "open" }>, "kind">;

const NO_ROOM = { standing: null, people: [], delay: null, called: undefined, troubles: [] } as const;
/** Four beats at 100. */
const USUAL_BAR_SECONDS: Seconds = 2.4;
/** What is known of clocks and people is shown anew so often. */
const LOOK_MS = 500;
/** Of the sentences of trouble the latest are shown. */
const TROUBLES_SHOWN = 3;

export interface RoomDeskParts {
  readonly place: KeepingPlace;
  /** The version of this program. */
  readonly program: string;
  /** Of the first kit: what is played here. */
  readonly own: KitLog;
  /** Of the second kit: where the far player is heard. */
  readonly far: KitLog;
  /** Sounds what the far player strikes, from the user's own action on. */
  readonly soundFar: () => FarSound;
  /** The package that connects, fetched when a room is joined. */
  readonly fetchConnect: () => Promise<Connect>;
  /** Opens the way to an address where the shell keeps the network shut. */
  readonly reach: (address: string) => Promise<void>;
  /** Listens at a kit of a lab. */
  readonly labKit: (tell: (summary: HeardSummary) => void) => LabKit;
  readonly makeId: () => PersonId;
  readonly now: () => Seconds;
}

export class RoomDesk extends Store<RoomState, Partial<RoomState>> {
  readonly #parts: RoomDeskParts;
  /** What the kits of a lab struck last; of the desk of a lab. */
  readonly kits = new FarKits();
  readonly #forms = new FormsBetween();
  readonly #strikes: FarStrikes;
  #connection: RoomConnection | undefined;
  #kit: LabKit | undefined;
  #looking: ReturnType<typeof setInterval> | undefined;
  #heardUpTo = 0;
  /** While a form is on: with whom, and how much later their strikes are sounded, whatever is measured. */
  #held: { readonly partner: PersonId | undefined; readonly seconds: Seconds } | null = null;
  /** Strikes of the far player that came before their clock had answered. */
  #unplaced: readonly Hit[] = [];
  #joining = 0;

  constructor(parts: RoomDeskParts) {
    super(
      { ...NO_ROOM, wish: readWish(parts.place), barSeconds: USUAL_BAR_SECONDS, openHere: null },
      (state, change) => ({ ...state, ...change }),
    );
    this.#parts = parts;
    this.#strikes = new FarStrikes(
      (hits) =>
        parts.far.append(hits.map((hit) => ({ source: "far", live: true, event: { kind: "hit", hit } }))),
      parts.now,
    );
    parts.own.subscribe(() => this.#playedHere());
  }

  /** Joins a room; one that was joined before is left. */
  async join(wish: KeptWish, code: string): Promise<void> {
    await this.leave();
    this.#joining += 1;
    const joining = this.#joining;
    keepWish(this.#parts.place, wish);
    // At once: browsers start sound only from the user's own action.
    if (wish.role === "player" || wish.role === "watcher") this.#strikes.soundBy(this.#parts.soundFar());
    this.dispatch({ ...NO_ROOM, wish, standing: { stage: "joining" } });
    try {
      const address = readAddress(wish.address);
      if (address.kind === "trouble") throw new Error(address.sentence);
      const [connect] = await Promise.all([this.#parts.fetchConnect(), this.#parts.reach(address.url)]);
      // Left again meanwhile.
      if (joining !== this.#joining) return;
      this.#connect(wish, code, connect);
    } catch (error) {
      if (joining !== this.#joining) return;
      const sentence = error instanceof Error ? error.message : String(error);
      this.dispatch({ standing: { stage: "refused", sentence } });
    }
  }

  async leave(): Promise<void> {
    this.#joining += 1;
    const connection = this.#connection;
    this.#connection = undefined;
    this.#kit = undefined;
    clearInterval(this.#looking);
    this.#strikes.clear();
    this.#strikes.soundBy(undefined);
    this.#unplaced = [];
    this.kits.clear();
    this.dispatch(NO_ROOM);
    await connection?.leave();
  }

  /** A room was opened on this computer, or closed. */
  opened(openHere: OpenHere | null): void {
    this.dispatch({ openHere });
  }

  /** The length of a bar, by which the delay is chosen. */
  setBar(barSeconds: Seconds): void {
    this.dispatch({ barSeconds });
    this.#look();
  }

  callStyle(styleId: string | null): void {
    this.#connection?.callStyle(styleId);
    this.dispatch({ called: styleId });
  }

  /** With whom one trades: while a form is on with whom it was begun, gone or not; `null` where nobody is there. */
  get partner(): Person | null {
    const people = this.#connection?.people() ?? [];
    const held = this.#held?.partner;
    return (held === undefined ? partnerOf(people) : people.find(({ id }) => id === held)) ?? null;
  }

  /** Whether the partner is there. */
  get presence(): Presence {
    const connection = this.#connection;
    const isJoined = connection?.standing.get().stage === "joined";
    return presenceOf(this.partner?.id, connection?.people() ?? [], isJoined);
  }

  /** The delay for bars of this length; `null` before the far clock has answered. */
  delayFor(barSeconds: Seconds): Delay | null {
    const clock = this.partner?.clock;
    return clock ? chooseDelay(clock.oneWay, clock.worstOneWay, barSeconds) : null;
  }

  /** Holds the partner and the delay of a form while it is on; `null`: as they are again. */
  holdDelay(seconds: Seconds | null): void {
    this.#held = null;
    if (seconds !== null) this.#held = { partner: this.partner?.id, seconds };
  }

  /** Tells the other place that a form begins. */
  sayForm(form: Omit<MessageOf<"form">, "kind" | "from">): void {
    const connection = this.#connection;
    if (!connection) return;
    const begun = { from: connection.member.me.id, beginsAt: form.beginsAt };
    this.#forms.begun(begun, () => connection.sayForm(form));
  }

  /** Tells the other place that the form is left here. */
  leaveForm(): void {
    const connection = this.#connection;
    if (connection) this.#forms.left((form) => connection.sayFormLeft(form));
  }

  /** Hears of forms that are begun at the other place, each once. Returns the way to stop. */
  readonly onForm = (listener: (form: FarForm) => void): (() => void) => this.#forms.onForm(listener);

  /** Hears that the form that is on was left at the other place. Returns the way to stop. */
  readonly onFormLeft = (listener: () => void): (() => void) => this.#forms.onFormLeft(listener);

  #connect(wish: KeptWish, code: string, connect: Connect): void {
    const { program, makeId, now, labKit } = this.#parts;
    const connection = new RoomConnection(
      {
        address: wish.address,
        room: wish.room.trim(),
        code,
        ...(wish.username === "" ? {} : { username: wish.username }),
      },
      { id: makeId(), name: wish.name.trim(), program, role: wish.role },
      (news) => this.#news(news),
      connect,
      now,
    );
    this.#connection = connection;
    this.#heardUpTo = this.#parts.own.get();
    if (wish.role === "kit") this.#kit = labKit((summary) => connection.sayHeard(summary));
    connection.standing.subscribe(() => {
      if (this.#connection === connection) this.dispatch({ standing: connection.standing.get() });
    });
    this.#looking = setInterval(() => this.#look(), LOOK_MS);
  }

  #look(): void {
    const people = this.#connection?.people();
    if (!people) return;
    const clock = partnerOf(people)?.clock;
    const delay = clock ? chooseDelay(clock.oneWay, clock.worstOneWay, this.get().barSeconds) : null;
    this.dispatch({ people, delay });
  }

  #playedHere(): void {
    const hits = this.#parts.own.hitsSince(this.#heardUpTo);
    this.#heardUpTo = this.#parts.own.get();
    const { role } = this.get().wish;
    if (!this.#connection || (role !== "player" && role !== "kit")) return;
    this.#connection.play(hits);
    this.#kit?.add(hits).catch((error: unknown) => this.#trouble(String(error)));
  }

  #news(news: RoomNews): void {
    switch (news.kind) {
      case "hits":
        this.#farHits(news.from, news.hits);
        return;
      case "call":
        this.#kit?.called(news.styleId);
        this.dispatch({ called: news.styleId });
        return;
      case "trouble":
        this.#trouble(news.sentence);
        return;
      case "people":
        this.#met();
        return;
      case "form":
        this.#farForm(news.form);
        return;
      case "form-left":
        this.#farFormLeft(news.left);
        return;
    }
  }

  /** Somebody came, went, or answered with their clock. */
  #met(): void {
    const people = this.#connection?.people() ?? [];
    if (this.get().people.length !== people.length) this.#look();
    const { partner } = this;
    if (partner && this.#unplaced.length > 0) this.#place(partner.id);
  }

  #farForm(form: MessageOf<"form">): void {
    if (form.from !== this.partner?.id) return;
    const now = this.#parts.now();
    const member = this.#connection?.member;
    const canBegin = this.#forms.heard(form, (time) => member?.inOwnTime(form.from, time, now)?.time);
    if (!canBegin)
      this.#trouble("A form was begun at the other place before the clocks were compared. Begin it again.");
  }

  #farFormLeft({ from, form }: MessageOf<"form-left">): void {
    if (from === this.partner?.id) this.#forms.heardLeft(form);
  }

  #farHits(from: PersonId, hits: readonly Hit[]): void {
    const { wish } = this.get();
    if (wish.role === "desk") {
      this.kits.add(from, hits);
      return;
    }
    if (from !== this.partner?.id) return;
    this.#unplaced = [...this.#unplaced, ...hits];
    this.#place(from);
  }

  /** Puts the far player's strikes on our clock; until that is known they wait. */
  #place(from: PersonId): void {
    const { delay } = this.get();
    const measured = delay && delay.kind !== "too-far" ? delay.seconds : 0;
    const later = this.#held?.seconds ?? measured;
    const now = this.#parts.now();
    const moments = this.#unplaced.map(({ time }) => this.#connection?.member.inOwnTime(from, time, now));
    const here = this.#unplaced.flatMap((hit, index) => {
      const moment = moments[index];
      return moment ? [{ ...hit, time: moment.time + later }] : [];
    });
    if (here.length < this.#unplaced.length) return;
    this.#unplaced = [];
    this.#strikes.add(here);
  }

  #trouble(sentence: string): void {
    const { troubles } = this.get();
    if (!troubles.includes(sentence))
      this.dispatch({ troubles: [...troubles, sentence].slice(-TROUBLES_SHOWN) });
  }
}

/** Whom one trades with: the first who plays and is here. */
export function partnerOf(people: readonly Person[]): Person | undefined {
  return people.find(({ role, isHere }) => role === "player" && isHere);
}
