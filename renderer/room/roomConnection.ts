/**
 * A member of a room at the network: MQTT 5 by the package `mqtt`, over WebSocket in a page. What is sent when, and what
 * to make of what comes, is the engine's (`engine/rooms`, Member); here are the wire and the clock.
 */
import type { IClientOptions, MqttClient } from "mqtt";
import type { Hit } from "../../engine/kit/index.ts";
import {
  type HeardSummary,
  type Me,
  Member,
  type MessageOf,
  type Person,
  type RoomNews,
  readAddress,
  type Sending,
  writeMessage,
} from "../../engine/rooms/index.ts";
import type { Seconds } from "../../engine/units/index.ts";
import { Store } from "../session/store.ts";

export interface RoomWish {
  /** As it was typed. */
  readonly address: string;
  readonly room: string;
  /** The room's code, or the password at another broker. */
  readonly code: string;
  /** At another broker, where that is not the room's name. */
  readonly username?: string;
}

/** How the connection stands. Sentences are for people. */
export type Standing =
  | { readonly stage: "joining" }
  | { readonly stage: "joined" }
  /** It does not answer, or broke off; it is tried again by itself. */
  | { readonly stage: "away"; readonly sentence: string }
  /** Nothing is tried any more. */
  | { readonly stage: "refused"; readonly sentence: string }
  | { readonly stage: "left" };

/** Tried again so soon after a break. Our choice: a room that is opened again is joined again within a second. */
const TRY_AGAIN_MS = 500;
const ANSWER_WITHIN_MS = 5000;
/** A connection of which nothing is heard for half as long again is broken. */
const KEEPALIVE_SECONDS = 10;
const TICK_MS = 20;

/** MQTT 5.0, section 2.4: reasons after which trying again is of no use, and what people are told. */
const ENDS: ReadonlyMap<number, string> = new Map([
  [0x80, "The broker refused, and gave no reason."],
  [0x81, "The broker did not understand this program."],
  [0x82, "The broker did not understand this program."],
  [0x84, "This broker does not speak MQTT 5. Choose one that does, or open a room with this program."],
  [0x85, "The broker does not take the name this program gave itself."],
  [0x86, "The room’s name or its code is not right. Read both again where the room was opened."],
  [
    0x87,
    "The room does not let this program do that: the name, the code or the broker’s own rules are against it.",
  ],
  [0x8a, "This program is shut out of the broker."],
  [0x8c, "The broker asks for another way to sign in than a name and a code."],
  [0x8e, "The same program has joined from elsewhere."],
  [0x95, "A message was too large for the broker."],
  [0x96, "Too much was sent at once, and the broker cut this program off."],
  [0x97, "The broker lets this program send no more."],
  [0x9f, "Too many wrong codes: wait a minute, and read the code again."],
]);

/** The way to a broker: the package's `connect`, or a test's own. */
export type Connect = (url: string, options: IClientOptions) => MqttClient;

export class RoomConnection {
  readonly standing = new Store<Standing, Standing>({ stage: "joining" }, (_, next) => next);
  readonly member: Member;
  readonly #client: MqttClient;
  readonly #now: () => Seconds;
  readonly #url: string;
  #ticking: ReturnType<typeof setInterval> | undefined;

  /**
   * Joins a room.
   *
   * @param now seconds on the clock that strikes are stamped with.
   * @throws an error with a sentence where the address or the room's name cannot be one.
   */
  constructor(
    wish: RoomWish,
    me: Me,
    tell: (news: RoomNews) => void,
    connect: Connect,
    now: () => Seconds = () => performance.now() / 1000,
  ) {
    const address = readAddress(wish.address);
    if (address.kind === "trouble") throw new Error(address.sentence);
    this.#now = now;
    this.#url = address.url;
    this.member = new Member(me, wish.room, (sending) => this.#send(sending), tell);
    const { topics } = this.member;
    this.#client = connect(address.url, {
      protocolVersion: 5,
      clientId: me.id,
      username: wish.username ?? wish.room,
      password: wish.code,
      clean: true,
      keepalive: KEEPALIVE_SECONDS,
      reconnectPeriod: TRY_AGAIN_MS,
      connectTimeout: ANSWER_WITHIN_MS,
      resubscribe: false,
      queueQoSZero: false,
      // A worker made of text would be against the page's content security policy.
      timerVariant: "native",
      will: { topic: topics.own("here", me.id), payload: "", qos: 1, retain: true },
    });
    this.#listen(tell);
  }

  people(): readonly Person[] {
    return this.member.people(this.#now());
  }

  /** Strikes of ours, on the clock this was given. */
  play(hits: readonly Hit[]): void {
    this.member.play(hits, this.#now());
  }

  callStyle(styleId: string | null): void {
    this.member.callStyle(styleId);
  }

  sayHeard(summary: HeardSummary): void {
    this.member.sayHeard(summary);
  }

  sayForm(form: Omit<MessageOf<"form">, "kind" | "from">): void {
    this.member.sayForm(form);
  }

  sayFormLeft(form: MessageOf<"form-left">["form"]): void {
    this.member.sayFormLeft(form);
  }

  /** Says goodbye and goes. */
  async leave(): Promise<void> {
    const isIn = this.standing.get().stage === "joined";
    this.member.sayGoodbye();
    this.#end({ stage: "left" });
    const { member } = this;
    if (isIn)
      await this.#client
        .publishAsync(member.topics.own("here", member.me.id), "", { qos: 1, retain: true })
        .catch(() => undefined);
    await this.#client.endAsync(!isIn);
  }

  #listen(tell: (news: RoomNews) => void): void {
    const client = this.#client;
    client.on("connect", () => void this.#subscribe(tell));
    client.on("message", (topic, payload, { retain }) =>
      this.member.receive(topic, payload.toString(), this.#now(), retain),
    );
    client.on("error", (error) => this.#failed(error));
    client.on("disconnect", ({ reasonCode, properties }) => {
      const ends = ENDS.get(reasonCode ?? 0);
      if (ends !== undefined) this.#refused(properties?.reasonString ?? ends);
    });
    client.on("close", () => this.#parted());
  }

  async #subscribe(tell: (news: RoomNews) => void): Promise<void> {
    try {
      const granted = await this.#client.subscribeAsync([...this.member.filters], { qos: 1 });
      if (granted.some(({ qos }) => qos >= 128))
        tell({ kind: "trouble", sentence: "The broker lets this program hear only a part of the room." });
    } catch {
      // The connection broke off meanwhile: it is joined again when it stands again.
      return;
    }
    this.member.joined(this.#now());
    this.#ticking ??= setInterval(() => this.member.tick(this.#now()), TICK_MS);
    this.standing.dispatch({ stage: "joined" });
  }

  #failed(error: Error & { code?: unknown }): void {
    const ends = typeof error.code === "number" ? ENDS.get(error.code) : undefined;
    if (ends !== undefined) this.#refused(ends);
  }

  #refused(sentence: string): void {
    this.#end({ stage: "refused", sentence });
    this.#client.end(true);
  }

  #parted(): void {
    this.member.parted();
    const { stage } = this.standing.get();
    if (stage === "refused" || stage === "left") return;
    this.standing.dispatch({
      stage: "away",
      sentence:
        stage === "joined"
          ? "The room broke off. It is tried again by itself; what you play meanwhile is sent when it is back."
          : `The room at ${this.#url} does not answer. Is it open, and is the address right? It is tried again by itself.`,
    });
  }

  #end(standing: Standing): void {
    clearInterval(this.#ticking);
    this.#ticking = undefined;
    this.member.parted();
    this.standing.dispatch(standing);
  }

  #send({ topic, message, kept, sure }: Sending): void {
    // What is not sure to come need not be told of: another follows.
    this.#client.publish(topic, writeMessage(message), { qos: sure ? 1 : 0, retain: kept }, () => {});
  }
}
