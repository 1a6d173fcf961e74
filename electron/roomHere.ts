/** The room that is opened on this computer, one at a time, until it is closed or the program ends. */
import type { OpenRoom, RoomWanted } from "../broker/openRoom.ts";
import type { DoorAnswered } from "../engine/records/index.ts";
import { ROOM_PORT } from "../engine/rooms/index.ts";

export class RoomHere {
  readonly #openRoom: (wanted: RoomWanted, say: (sentence: string) => void) => Promise<OpenRoom>;
  #room: Promise<OpenRoom> | undefined;

  constructor(openRoom: (wanted: RoomWanted, say: (sentence: string) => void) => Promise<OpenRoom>) {
    this.#openRoom = openRoom;
  }

  /** Opens it; of a room that is open it tells again. */
  async open(name: string): Promise<DoorAnswered<"openRoom">> {
    this.#room ??= this.#openRoom({ name, port: ROOM_PORT }, (sentence) => console.error(sentence));
    try {
      const { name: called, addresses, code } = await this.#room;
      return { kind: "open", name: called, addresses: [...addresses], code };
    } catch (error) {
      this.#room = undefined;
      return { kind: "failed", reason: error instanceof Error ? error.message : String(error) };
    }
  }

  async close(): Promise<DoorAnswered<"closeRoom">> {
    const room = await this.#room;
    this.#room = undefined;
    await room?.close();
    return { kind: "closed" };
  }
}
