/** A room without a network or a clock: messages go through a simulated broker, each on its way for as long as chance says. */
import {
  type Me,
  Member,
  type PersonId,
  type RoomNews,
  type Sending,
  writeMessage,
} from "../../../engine/rooms/index.ts";
import { type Chance, normal, seededChance } from "../../../engine/units/index.ts";

export interface Way {
  /** Of one way, member to member. */
  readonly latencySeconds: number;
  /** Standard deviation. */
  readonly jitterSeconds: number;
  /** Share of the messages that never come, in spite of all the broker does. */
  readonly loss: number;
  /** Share of the messages that come twice. */
  readonly doubled: number;
}

export const QUIET: Way = { latencySeconds: 0.001, jitterSeconds: 0, loss: 0, doubled: 0 };

interface Due {
  readonly at: number;
  readonly order: number;
  readonly to: Simulated;
  readonly topic: string;
  readonly text: string;
  readonly kept: boolean;
}

export interface Simulated {
  readonly member: Member;
  readonly news: RoomNews[];
  /** Their clock less the room's true one. */
  readonly clockAhead: number;
}

export class SimulatedRoom {
  readonly #chance: Chance;
  readonly #way: Way;
  readonly #members: Simulated[] = [];
  readonly #kept = new Map<string, string>();
  #due: Due[] = [];
  #order = 0;
  now = 0;
  /** While it is down nothing passes, and what was on its way is gone. */
  #isDown = false;
  /** Whose line is dead: nothing passes there, and nobody is told. */
  readonly #dead = new Set<Simulated>();

  constructor(way: Way, seed: number) {
    this.#way = way;
    this.#chance = seededChance(seed);
  }

  join(me: Partial<Me> & { readonly id: PersonId }, clockAhead = 0): Simulated {
    const news: RoomNews[] = [];
    const all: Me = { name: "Noor", program: "0.1.0", role: "player", ...me };
    const member = new Member(
      all,
      "Millrace",
      (sending) => this.#carry(simulated, sending),
      (each) => news.push(each),
    );
    const simulated: Simulated = { member, news, clockAhead };
    this.#members.push(simulated);
    for (const [topic, text] of this.#kept) this.#put(simulated, topic, text, true);
    member.joined(this.now + clockAhead);
    return simulated;
  }

  /** Hands a text in as the broker would, whoever sent it. */
  hand(to: Simulated, topic: string, text: string): void {
    this.#put(to, topic, text, false);
  }

  breakDown(): void {
    this.#isDown = true;
    this.#due = [];
    for (const { member } of this.#members) member.parted();
  }

  comeBack(): void {
    this.#isDown = false;
    for (const { member, clockAhead } of this.#members) member.joined(this.now + clockAhead);
  }

  /** The connection of one breaks, and the broker sees it: the others are told that they are gone. */
  lose(who: Simulated): void {
    const { member } = who;
    this.#dead.add(who);
    member.parted();
    const topic = member.topics.own("here", member.me.id);
    this.#kept.delete(topic);
    for (const to of this.#members) if (to !== who && hears(to, topic)) this.#put(to, topic, "", false);
  }

  /** The line of one goes dead, and nobody sees it. */
  deaden(who: Simulated): void {
    this.#dead.add(who);
  }

  /** The line of one is alive again; `isJoinedAnew`: their connection had broken. */
  mend(who: Simulated, isJoinedAnew: boolean): void {
    this.#dead.delete(who);
    if (isJoinedAnew) who.member.joined(this.now + who.clockAhead);
  }

  /** Lets time run, a hundredth of a second at a time. */
  run(seconds: number): void {
    const until = this.now + seconds;
    while (this.now < until - 1e-9) {
      this.now += 0.01;
      this.#deliver();
      for (const { member, clockAhead } of this.#members) member.tick(this.now + clockAhead);
    }
  }

  #carry(from: Simulated, { topic, message, kept }: Sending): void {
    if (this.#isDown || this.#dead.has(from)) return;
    const text = writeMessage(message);
    if (kept) this.#kept.set(topic, text);
    for (const to of this.#members) if (to !== from && hears(to, topic)) this.#put(to, topic, text, false);
  }

  #put(to: Simulated, topic: string, text: string, kept: boolean): void {
    const copies = this.#chance() < this.#way.doubled ? 2 : 1;
    for (let copy = 0; copy < copies; copy += 1) {
      if (!kept && this.#chance() < this.#way.loss) continue;
      const { latencySeconds, jitterSeconds } = this.#way;
      const at = this.now + Math.max(0, latencySeconds + jitterSeconds * normal(this.#chance));
      this.#order += 1;
      this.#due.push({ at, order: this.#order, to, topic, text, kept });
    }
  }

  #deliver(): void {
    const due = this.#due.filter(({ at }) => at <= this.now).sort((a, b) => a.at - b.at || a.order - b.order);
    this.#due = this.#due.filter(({ at }) => at > this.now);
    // Each at its own moment, not at the end of the step: the clocks are told apart by less than that.
    for (const { at, to, topic, text, kept } of due)
      if (!this.#dead.has(to)) to.member.receive(topic, text, at + to.clockAhead, kept);
  }
}

function hears({ member }: Simulated, topic: string): boolean {
  return member.filters.some((filter) =>
    filter.endsWith("/+")
      ? topic.startsWith(filter.slice(0, -1)) && !topic.slice(filter.length - 1).includes("/")
      : topic === filter,
  );
}
