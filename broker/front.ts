/**
 * One connection to the room, between the network and the broker inside. The broker speaks MQTT 3.1.1; who connects by
 * MQTT 5.0 (OASIS, 7 March 2019) is spoken to in 5.0: packets are put from one into the other here. Of 5.0 a room has
 * reason codes and their sentences, the largest packet and no aliases for topics; properties of messages, sessions that
 * outlive a connection (unless asked for by an expiry), and options of subscriptions are left out. Who connects by
 * 3.1.1 gets it unchanged, and is cut off without a word, as 3.1.1 has none for it.
 *
 * Here also is the guard: nothing larger than a message may be, and no flood, reaches the broker.
 */
import { Duplex } from "node:stream";
import { generate, type Packet, type Parser, parser } from "mqtt-packet";
import { Bucket, MOST_BYTES, MOST_MESSAGE_BYTES, MOST_MESSAGES } from "../engine/rooms/index.ts";
import { Frames } from "./frames.ts";
import { REASON, type Reason, reasonOf } from "./reasons.ts";

/** A message, its topic and its head. */
export const MOST_PACKET_BYTES = MOST_MESSAGE_BYTES + 1024;

/** What is still on its way may arrive for so long after a connection is cut off. */
const LAST_WORDS_MS = 1000;

const PUBLISH = 3;
const FIVE = { protocolVersion: 5 };
const FOUR = { protocolVersion: 4 };

export class Front extends Duplex {
  readonly #socket: Duplex;
  readonly #now: () => number;
  readonly #frames = new Frames(MOST_PACKET_BYTES);
  readonly #messages = new Bucket(MOST_MESSAGES);
  readonly #bytes = new Bucket(MOST_BYTES);
  /** Reads what comes from outside, where that is 5.0. */
  #outer: Parser | undefined;
  /** Reads what the broker says. */
  readonly #inner: Parser;
  #version: number | undefined;
  #isCutOff = false;
  #sentence: string | undefined;
  /** What 3.1.1 does not answer and 5.0 does: which filters of an unsubscription there were at all. */
  readonly #subscribed = new Set<string>();
  readonly #asked = new Map<number, readonly string[]>();

  /**
   * @param from the address it comes from.
   * @param now seconds on a clock that never goes back.
   */
  constructor(
    socket: Duplex,
    readonly from: string,
    now: () => number,
  ) {
    super();
    this.#socket = socket;
    this.#now = now;
    this.#inner = parser(FOUR);
    this.#inner.on("packet", (packet: Packet) => this.#answer(packet));
    this.#inner.on("error", (error: Error) => this.destroy(error));
    socket.on("data", (chunk: Buffer) => this.#take(chunk));
    socket.on("end", () => this.push(null));
    socket.on("close", () => this.destroy());
    socket.on("error", (error: Error) => this.destroy(error));
  }

  /** What 5.0 is told beside the next refusal. */
  explain(sentence: string): void {
    this.#sentence = sentence;
  }

  /** Cuts the connection off, with the reason where the other side can hear it. */
  cutOff(reason: Reason, sentence: string): void {
    if (this.#isCutOff) return;
    this.#isCutOff = true;
    this.emit("cut-off", sentence);
    if (this.#version === 5)
      this.#socket.write(
        generate({ cmd: "disconnect", reasonCode: reason, properties: { reasonString: sentence } }, FIVE),
      );
    this.destroy();
  }

  override _read(): void {
    this.#socket.resume();
  }

  override _write(chunk: Buffer, _encoding: BufferEncoding, done: (error?: Error | null) => void): void {
    if (this.#version === 5) {
      this.#inner.parse(chunk);
      done();
    } else if (this.#socket.write(chunk)) done();
    else this.#socket.once("drain", () => done());
  }

  override _destroy(error: Error | null, done: (error: Error | null) => void): void {
    this.#socket.end();
    setTimeout(() => this.#socket.destroy(), LAST_WORDS_MS).unref();
    done(error);
  }

  #take(chunk: Buffer): void {
    if (this.#isCutOff || this.destroyed) return;
    if (!this.#bytes.take(chunk.length, this.#now())) {
      this.cutOff(REASON.tooManyMessages, "Too much was sent at once.");
      return;
    }
    const cut = this.#frames.take(chunk);
    if (cut.kind === "too large")
      this.cutOff(
        REASON.tooLarge,
        `A message of ${Math.ceil(cut.bytes / 1024)} kB was refused: ${MOST_MESSAGE_BYTES / 1024} kB is the most.`,
      );
    else if (cut.kind === "malformed") this.cutOff(REASON.malformed, "What was sent is not MQTT.");
    else for (const packet of cut.packets) this.#pass(packet);
  }

  #pass(packet: Buffer): void {
    if (this.#isCutOff || this.destroyed) return;
    if ((packet[0] ?? 0) >> 4 === PUBLISH && !this.#messages.take(1, this.#now())) {
      this.cutOff(
        REASON.tooManyMessages,
        `Too many messages were sent: ${MOST_MESSAGES.perSecond} a second is the most.`,
      );
      return;
    }
    this.#version ??= versionOf(packet);
    if (this.#version !== 5) {
      this.#inside(packet);
      return;
    }
    if (this.#outer === undefined) {
      this.#outer = parser(FIVE);
      this.#outer.on("packet", (read: Packet) => this.#ask(read));
      this.#outer.on("error", () => this.cutOff(REASON.malformed, "What was sent is not MQTT."));
    }
    this.#outer.parse(packet);
  }

  #inside(bytes: Buffer): void {
    if (!this.push(bytes)) this.#socket.pause();
  }

  /** From 5.0 outside to 3.1.1 inside. */
  #ask(packet: Packet): void {
    switch (packet.cmd) {
      case "connect": {
        const outlives = (packet.properties?.sessionExpiryInterval ?? 0) > 0;
        const { properties: _, will, ...rest } = packet;
        this.#inside(
          generate({
            ...rest,
            ...(will ? { will: { topic: will.topic, payload: will.payload, ...inShort(will) } } : {}),
            protocolVersion: 4,
            clean: packet.clean !== false || !outlives,
          }),
        );
        return;
      }
      case "publish": {
        const { properties: _, ...rest } = packet;
        this.#inside(generate(rest));
        return;
      }
      case "subscribe":
        this.#asked.set(
          packet.messageId ?? 0,
          packet.subscriptions.map(({ topic }) => topic),
        );
        this.#inside(
          generate({
            cmd: "subscribe",
            messageId: packet.messageId ?? 0,
            subscriptions: packet.subscriptions.map(({ topic, qos }) => ({ topic, qos })),
          }),
        );
        return;
      case "unsubscribe":
        this.#asked.set(packet.messageId ?? 0, packet.unsubscriptions);
        this.#inside(
          generate({
            cmd: "unsubscribe",
            messageId: packet.messageId ?? 0,
            unsubscriptions: packet.unsubscriptions,
          }),
        );
        return;
      case "puback":
      case "pubrec":
      case "pubrel":
      case "pubcomp":
        this.#inside(generate({ cmd: packet.cmd, messageId: packet.messageId ?? 0 }));
        return;
      case "pingreq":
        this.#inside(generate({ cmd: "pingreq" }));
        return;
      case "disconnect":
        // Section 3.14.2.1: by 4 the will is sent all the same, as when a connection breaks.
        if (packet.reasonCode === DISCONNECT_WITH_WILL) this.destroy();
        else this.#inside(generate({ cmd: "disconnect" }));
        return;
      default:
        this.cutOff(
          packet.cmd === "auth" ? REASON.badAuthentication : REASON.protocolError,
          `A room does not take "${packet.cmd}".`,
        );
    }
  }

  /** From 3.1.1 inside to 5.0 outside. */
  #answer(packet: Packet): void {
    const said = this.#inFive(packet);
    if (!this.#socket.writableEnded) this.#socket.write(generate(said, FIVE));
  }

  #inFive(packet: Packet): Packet {
    switch (packet.cmd) {
      case "connack":
        return this.#inFiveConnected(packet.returnCode ?? 0, packet.sessionPresent);
      case "suback":
        return this.#inFiveSubscribed(packet.messageId ?? 0, packet.granted);
      case "unsuback": {
        const messageId = packet.messageId ?? 0;
        const granted = this.#filtersAsked(messageId).map((filter) =>
          this.#subscribed.delete(filter) ? REASON.success : REASON.noSubscription,
        );
        return { cmd: "unsuback", messageId, granted };
      }
      default:
        return packet;
    }
  }

  #inFiveSubscribed(messageId: number, answers: readonly (number | object)[]): Packet {
    const filters = this.#filtersAsked(messageId);
    const granted = answers.map((answer, index) => {
      // 3.1.1 has one refusal, and a room one reason for it.
      if (typeof answer !== "number" || answer === REFUSED_BEFORE) return REASON.notAuthorized;
      const filter = filters[index];
      if (filter !== undefined) this.#subscribed.add(filter);
      return answer;
    });
    return { cmd: "suback", messageId, granted };
  }

  #filtersAsked(messageId: number): readonly string[] {
    const filters = this.#asked.get(messageId) ?? [];
    this.#asked.delete(messageId);
    return filters;
  }

  #inFiveConnected(returnCode: number, sessionPresent: boolean): Packet {
    const reasonCode = reasonOf(returnCode);
    if (reasonCode !== REASON.success)
      return {
        cmd: "connack",
        reasonCode,
        sessionPresent: false,
        properties: this.#sentence === undefined ? {} : { reasonString: this.#sentence },
      };
    return {
      cmd: "connack",
      reasonCode,
      sessionPresent,
      properties: {
        maximumPacketSize: MOST_PACKET_BYTES,
        sharedSubscriptionAvailable: false,
        subscriptionIdentifiersAvailable: false,
      },
    };
  }
}

const DISCONNECT_WITH_WILL = 0x04;
/** MQTT 3.1.1, section 3.9.3. */
const REFUSED_BEFORE = 0x80;

function inShort(will: { readonly qos?: 0 | 1 | 2; readonly retain?: boolean }) {
  return { qos: will.qos ?? 0, retain: will.retain ?? false } as const;
}

/** Of a first packet, which must be CONNECT (section 3.1.2): length of the name, the name, the version. */
function versionOf(packet: Buffer): number {
  let at = 1;
  while ((packet[at] ?? 0) >= 128) at += 1;
  const name = packet.subarray(at + 1);
  const letters = name.length >= 2 ? name.readUInt16BE(0) : 0;
  return name[2 + letters] ?? 0;
}
