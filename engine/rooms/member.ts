/**
 * One program in a room: what it sends, what it makes of what comes, and when. It knows no network and no clock; moments
 * and messages are handed in, and what is to be sent is handed out. So a whole room can be played in a test, with any
 * network between.
 */
import type { Hit } from "../kit/index.ts";
import type { Seconds } from "../units/index.ts";
import {
  type HeardSummary,
  type MessageOf,
  type PersonId,
  type ReadMessage,
  ROOM_VERSION,
  type Role,
  type RoomMessage,
  readMessage,
} from "./message.ts";
import { namesShown } from "./names.ts";
import { Other, type OwnTime, type Person } from "./other.ts";
import { SentHits } from "./sentHits.ts";
import { type OwnTopic, RoomTopics } from "./topics.ts";

export interface Me {
  readonly id: PersonId;
  readonly name: string;
  /** The version of this program. */
  readonly program: string;
  readonly role: Role;
}

/** A message on its way. */
export interface Sending {
  readonly topic: string;
  readonly message: RoomMessage;
  /** The broker keeps it for those who come later. */
  readonly kept: boolean;
  /** It must come; else it may be lost: another follows. */
  readonly sure: boolean;
}

export type RoomNews =
  /** Strikes of somebody, in order, each once, on their own clock. */
  | { readonly kind: "hits"; readonly from: PersonId; readonly hits: readonly Hit[] }
  | { readonly kind: "call"; readonly styleId: string | null }
  | { readonly kind: "form"; readonly form: MessageOf<"form"> }
  | { readonly kind: "form-left"; readonly left: MessageOf<"form-left"> }
  /** Somebody came, went, was measured or heard: {@link Member.people} has changed. */
  | { readonly kind: "people" }
  /** A sentence for people. */
  | { readonly kind: "trouble"; readonly sentence: string };

/** While strikes go out, and for some time after, it is said how many they were. */
const STANDING_SECONDS: Seconds = 1;
const STANDINGS_AFTER = 10;
const STANDINGS_ON_MEETING = 3;
export class Member {
  readonly me: Me;
  readonly topics: RoomTopics;
  readonly #send: (sending: Sending) => void;
  readonly #tell: (news: RoomNews) => void;
  readonly #others = new Map<PersonId, Other>();
  readonly #sent = new SentHits();
  /** What was said already is not said again. */
  readonly #told = new Set<string>();
  #isJoined = false;
  #standingAt: Seconds = 0;
  #standingsLeft = 0;

  /** @throws RangeError where the room's name cannot be one. */
  constructor(me: Me, room: string, send: (sending: Sending) => void, tell: (news: RoomNews) => void) {
    this.me = me;
    this.topics = new RoomTopics(room);
    this.#send = send;
    this.#tell = tell;
  }

  /** All that must be listened to. */
  get filters(): readonly string[] {
    return this.topics.heardBy(this.me.id, this.me.role);
  }

  /** Who else is here, or was; in the order they came. `now` is on our clock. */
  people(now: Seconds): readonly Person[] {
    const others = [...this.#others.values()];
    const shown = namesShown([this.me.name, ...others.map(({ hello }) => hello.name)]).slice(1);
    return others.map((other, index) => other.asPerson(shown[index] ?? other.hello.name, now));
  }

  /** Strikes of ours, with moments on our clock. */
  play(hits: readonly Hit[], now: Seconds): void {
    if (hits.length === 0) return;
    this.#sent.add(hits);
    this.#standingsLeft = STANDINGS_AFTER;
    this.#flush(now);
  }

  /** The connection stands, for the first time or again. */
  joined(now: Seconds): void {
    this.#isJoined = true;
    this.#own("here", this.hello, { kept: true, sure: true });
    for (const other of this.#others.values()) other.askClockNow(now);
    this.#flush(now);
    this.#sayStanding(now);
  }

  /** The connection is gone. What is played meanwhile goes out when it is back. */
  parted(): void {
    this.#isJoined = false;
  }

  /** As this program stands now. */
  get hello(): MessageOf<"hello"> {
    return { kind: "hello", ...this.me, sequence: this.#sent.sequence };
  }

  /** Before going: others then know that it is no connection that broke. */
  sayGoodbye(): void {
    this.#own("here", { kind: "goodbye" }, { sure: true });
  }

  callStyle(styleId: string | null): void {
    this.#out(this.topics.all, { kind: "call", styleId }, { sure: true });
  }

  /** A form begins, here and there. */
  sayForm(form: Omit<MessageOf<"form">, "kind" | "from">): void {
    this.#out(this.topics.all, { kind: "form", from: this.me.id, ...form }, { sure: true });
  }

  /** A form was left here. */
  sayFormLeft(form: MessageOf<"form-left">["form"]): void {
    this.#out(this.topics.all, { kind: "form-left", from: this.me.id, form }, { sure: true });
  }

  sayHeard(summary: HeardSummary): void {
    this.#own("heard", { kind: "heard", summary }, { sure: true });
  }

  /** Does what is due: batches, clock questions, asking again. Call it some fifty times a second. */
  tick(now: Seconds): void {
    if (!this.#isJoined) return;
    this.#flush(now);
    if (this.#standingsLeft > 0 && now >= this.#standingAt + STANDING_SECONDS) {
      this.#standingsLeft -= 1;
      this.#sayStanding(now);
    }
    for (const other of this.#others.values()) {
      if (!other.isHere) continue;
      this.#askClock(other, now);
      this.#askAgain(other, now);
    }
  }

  /**
   * Takes what came on a topic. An empty text on somebody's *here* says that they have gone.
   *
   * @param wasKept the broker kept it from before.
   */
  receive(topic: string, text: string, now: Seconds, wasKept = false): void {
    const owner = this.topics.ownerOf(topic);
    if (owner?.id === this.me.id) return;
    if (owner?.kind === "here" && text === "") {
      this.#gone(owner.id);
      return;
    }
    const read = readMessage(text);
    if (read.read === "message") this.#take(read.message, owner?.id ?? null, topic, now, wasKept);
    else this.#trouble(troubleWith(read, owner && this.#others.get(owner.id)?.hello.name));
  }

  /**
   * A moment of somebody's clock on ours, and how sure that is; `null` before their clock has answered.
   */
  inOwnTime(id: PersonId, time: Seconds, now: Seconds): OwnTime | null {
    return this.#others.get(id)?.inOwnTime(time, now) ?? null;
  }

  #take(message: RoomMessage, from: PersonId | null, topic: string, now: Seconds, wasKept: boolean): void {
    const sender = this.#others.get(senderOf(message) ?? from ?? "");
    if (sender && !wasKept) sender.heardAt = now;
    switch (message.kind) {
      case "hello":
        if (from === message.id) this.#met(message, now, wasKept);
        return;
      case "goodbye":
        if (!sender) return;
        sender.hasLeft = true;
        this.#gone(sender.id);
        return;
      case "clock-question":
      case "clock-answer":
      case "again":
        this.#asked(message, topic, now);
        return;
      case "call":
        this.#tell({ kind: "call", styleId: message.styleId });
        return;
      case "form":
        if (message.from !== this.me.id) this.#tell({ kind: "form", form: message });
        return;
      case "form-left":
        if (message.from !== this.me.id) this.#tell({ kind: "form-left", left: message });
        return;
      default: {
        const other = from === null ? undefined : this.#others.get(from);
        if (other) this.#fromOther(message, other, now);
      }
    }
  }

  #fromOther(
    message: MessageOf<"hits" | "standing" | "forgotten" | "heard">,
    other: Other,
    now: Seconds,
  ): void {
    if (message.kind === "heard") {
      other.heard = message.summary;
      this.#tell({ kind: "people" });
      return;
    }
    const hits = other.struck(message, now);
    if (hits.length > 0) this.#tell({ kind: "hits", from: other.id, hits });
  }

  #met(hello: MessageOf<"hello">, now: Seconds, wasKept: boolean): void {
    const known = this.#others.get(hello.id);
    if (known) known.metAgain(hello, now);
    else {
      this.#others.set(hello.id, new Other(hello, now, wasKept));
      if (hello.program !== this.me.program)
        this.#trouble(
          `${hello.name} has version ${hello.program} of the program, and this is ${this.me.program}: it works, and the ` +
            "same version on both is safer.",
        );
    }
    if (!wasKept) {
      // They count from what they hear first: that must not be a strike whose forerunners were lost.
      this.#standingsLeft = Math.max(this.#standingsLeft, STANDINGS_ON_MEETING);
      this.#sayStanding(now);
    }
    this.#tell({ kind: "people" });
  }

  #gone(id: PersonId): void {
    const other = this.#others.get(id);
    if (!other?.isHere) return;
    other.isHere = false;
    this.#tell({ kind: "people" });
  }

  /** What came to us alone. */
  #asked(message: MessageOf<"clock-question" | "clock-answer" | "again">, topic: string, now: Seconds): void {
    if (topic !== this.topics.to(this.me.id)) return;
    switch (message.kind) {
      case "clock-question":
        if (message.from !== this.me.id)
          this.#out(this.topics.to(message.from), {
            kind: "clock-answer",
            from: this.me.id,
            t1: message.t1,
            t2: now,
            t3: now,
          });
        return;
      case "clock-answer": {
        const other = this.#others.get(message.from);
        if (!other?.answered(message, now)) return;
        this.#tell({ kind: "people" });
        return;
      }
      case "again":
        this.#sendAgain(message.from, message.upTo);
    }
  }

  #sendAgain(from: number, upTo: number): void {
    const { firstKept } = this.#sent;
    if (from < firstKept)
      this.#own("hits", { kind: "forgotten", upTo: Math.min(firstKept, upTo) }, { sure: true });
    for (const batch of this.#sent.between(from, upTo)) this.#own("hits", batch, { sure: true });
  }

  #askClock(other: Other, now: Seconds): void {
    if (other.isClockDue(now, this.me.role, this.#others.size))
      this.#out(this.topics.to(other.id), { kind: "clock-question", from: this.me.id, t1: now });
  }

  #askAgain(other: Other, now: Seconds): void {
    for (const gap of other.gapsDue(now))
      this.#out(this.topics.to(other.id), { kind: "again", ...gap }, { sure: true });
  }

  #flush(now: Seconds): void {
    if (!this.#isJoined) return;
    for (const batch of this.#sent.due(now)) this.#own("hits", batch, { sure: true });
  }

  #sayStanding(now: Seconds): void {
    if (!this.#isJoined || (this.me.role !== "player" && this.me.role !== "kit")) return;
    this.#standingAt = now;
    // As sure as strikes: a broker keeps only what is equally sure in order, and who hears this first would take the strikes that
    // it overtook for those of before.
    this.#own("hits", { kind: "standing", upTo: this.#sent.sentUpTo }, { sure: true });
  }

  #own(kind: OwnTopic, message: RoomMessage, how: Partial<Pick<Sending, "kept" | "sure">> = {}): void {
    this.#out(this.topics.own(kind, this.me.id), message, how);
  }

  #out(topic: string, message: RoomMessage, how: Partial<Pick<Sending, "kept" | "sure">> = {}): void {
    if (this.#isJoined) this.#send({ topic, message, kept: how.kept ?? false, sure: how.sure ?? false });
  }

  #trouble(sentence: string): void {
    if (this.#told.has(sentence) || this.#told.size >= MOST_TOLD) return;
    this.#told.add(sentence);
    this.#tell({ kind: "trouble", sentence });
  }
}

/** Sentences of trouble in one room; who sends more nonsense than that has been told of. */
const MOST_TOLD = 100;

/** Who sent it, where it says so itself: on a topic of somebody's own it need not. */
function senderOf(message: RoomMessage): PersonId | null {
  switch (message.kind) {
    case "clock-question":
    case "clock-answer":
    case "form":
    case "form-left":
      return message.from;
    default:
      return null;
  }
}

/** What is wrong with a message that was put aside, and what to do. */
function troubleWith(read: Exclude<ReadMessage, { readonly read: "message" }>, name = "somebody"): string {
  if (read.read === "not understood") return `A message from ${name} was put aside: ${read.reason}.`;
  const program = read.program === null ? "" : ` (program ${read.program})`;
  return (
    `A program here${program} speaks version ${read.version} of the room, and this one version ${ROOM_VERSION}: they do ` +
    "not understand each other. Put the same version of the program on both computers."
  );
}
