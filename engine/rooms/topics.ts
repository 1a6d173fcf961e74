/**
 * Where messages go. All topics of a room begin with its name; below that, what is somebody's own ends with their id, so
 * that a broker can see from the topic alone who may send there and who may hear it.
 *
 * | topic | who sends | who hears |
 * | --- | --- | --- |
 * | `here/ID` | ID: hello, kept; goodbye; nothing where they have gone | all |
 * | `hits/ID` | ID: strikes, standing, forgotten | all who watch |
 * | `heard/ID` | ID: what is heard at that kit | the desk |
 * | `to/ID` | anybody: clock questions and answers, again | ID |
 * | `all` | anybody: calls, forms, and that one was left | all |
 */
import type { PersonId, Role } from "./message.ts";

/** Letters that a broker gives a meaning of its own are not among them. */
const ROOM_NAME = /^[\p{L}\p{N}][\p{L}\p{N} _-]{0,39}$/u;

/** True for what may name a room: 1 to 40 letters, digits, spaces and strokes. */
export function isRoomName(name: string): boolean {
  return ROOM_NAME.test(name);
}

const OWN = ["here", "hits", "heard"] as const;
export type OwnTopic = (typeof OWN)[number];

export class RoomTopics {
  readonly #root: string;

  /** @throws RangeError where the name cannot be one: see {@link isRoomName}. */
  constructor(room: string) {
    if (!isRoomName(room))
      throw new RangeError(`"${room}" cannot name a room: use up to 40 letters, digits and spaces.`);
    this.#root = `throneside/${room}`;
  }

  own(kind: OwnTopic, id: PersonId): string {
    return `${this.#root}/${kind}/${id}`;
  }

  to(id: PersonId): string {
    return `${this.#root}/to/${id}`;
  }

  get all(): string {
    return `${this.#root}/all`;
  }

  /**
   * What somebody hears: what is to them and to all; unless they are a kit of a lab, who is here and what is struck; at the
   * desk, what is heard at the kits as well. With 500 kits it matters that they do not hear of each other.
   */
  heardBy(id: PersonId, role: Role): readonly string[] {
    const ofOthers = role === "kit" ? [] : [`${this.#root}/here/+`, `${this.#root}/hits/+`];
    return [this.to(id), this.all, ...ofOthers, ...(role === "desk" ? [`${this.#root}/heard/+`] : [])];
  }

  /** Whose own topic it is, and which; `undefined` for all others. */
  ownerOf(topic: string): { readonly kind: OwnTopic; readonly id: PersonId } | undefined {
    const [kind, id, ...more] = this.#below(topic);
    const own = OWN.find((each) => each === kind);
    return own && id && more.length === 0 ? { kind: own, id } : undefined;
  }

  /** Whether `id` may send there: on topics of its own, to somebody, or to all. */
  maySend(id: PersonId, topic: string): boolean {
    if (topic === this.all) return true;
    const [kind, to, ...more] = this.#below(topic);
    if (!kind || !to || more.length > 0) return false;
    return kind === "to" || this.ownerOf(topic)?.id === id;
  }

  /** Whether `id` may hear a filter: those of {@link heardBy}, or one person's own topics. Wider ones may not. */
  mayHear(id: PersonId, filter: string): boolean {
    if (this.heardBy(id, "desk").includes(filter)) return true;
    return !/[+#]/.test(filter) && this.ownerOf(filter) !== undefined;
  }

  #below(topic: string): readonly string[] {
    const prefix = `${this.#root}/`;
    return topic.startsWith(prefix) ? topic.slice(prefix.length).split("/") : [];
  }
}
