import { describe, expect, test } from "vitest";
import { presenceOf, SILENT_SECONDS } from "../../../engine/rooms/index.ts";
import { type Simulated, SimulatedRoom } from "./network.ts";

const NOOR = "noor-0001";
const BRAM = "bram-0002";
/** As in the worst case that the rooms are made for. */
const WAY = { latencySeconds: 0.3, jitterSeconds: 0.05, loss: 0.05, doubled: 0.05 };

function inARoom(seed: number) {
  const room = new SimulatedRoom(WAY, seed);
  const noor = room.join({ id: NOOR });
  const bram = room.join({ id: BRAM, name: "Bram" }, 86_400);
  for (let time = 0; time < 20; time += 1) {
    room.run(2);
    if ([noor, bram].every(({ member }) => member.people(room.now).length === 1)) break;
    noor.member.joined(room.now);
    bram.member.joined(room.now + bram.clockAhead);
  }
  room.run(5);
  return { room, noor, bram };
}

function presenceAt({ member, clockAhead }: Simulated, id: string, now: number, isJoined = true) {
  return presenceOf(id, member.people(now + clockAhead), isJoined);
}

const SEEDS = [1, 2, 3, 4, 5, 6, 7, 8];

describe("somebody in the room", () => {
  test("is there as long as they are, though neither plays and one message in twenty is lost", () => {
    for (const seed of SEEDS) {
      const { room, noor, bram } = inARoom(seed);
      let quietest = 0;
      for (let time = 0; time < 600; time += 0.25) {
        room.run(0.25);
        const presence = presenceAt(noor, BRAM, room.now);
        expect({ seed, time, kind: presence.kind }).toEqual({ seed, time, kind: "there" });
        quietest = Math.max(quietest, presence.quietSeconds);
      }
      expect(presenceAt(bram, NOOR, room.now).kind).toBe("there");
      expect(quietest).toBeGreaterThan(0.5);
    }
  });

  test("who goes by their own word has left, and cannot be waited for", () => {
    const { room, noor, bram } = inARoom(1);
    for (let again = 0; again < 3; again += 1) bram.member.sayGoodbye();
    room.lose(bram);
    room.run(2);
    expect(presenceAt(noor, BRAM, room.now)).toMatchObject({ kind: "gone", why: "left" });
  });

  test("whose connection breaks is gone within the way of a message, and there again when it is mended", () => {
    for (const seed of [1, 2, 3]) {
      const { room, noor, bram } = inARoom(seed);
      room.lose(bram);
      room.run(1);
      const gone = presenceAt(noor, BRAM, room.now);
      // That message may be lost as well: then silence tells.
      if (gone.kind === "gone") expect(gone.why).toBe("broken-off");
      room.run(SILENT_SECONDS + 1);
      expect(presenceAt(noor, BRAM, room.now).kind).toBe("gone");
      room.mend(bram, true);
      room.run(4);
      expect({ seed, kind: presenceAt(noor, BRAM, room.now).kind }).toEqual({ seed, kind: "there" });
    }
  });

  test("whose line goes dead without a sign is gone after six seconds of silence, and there again", () => {
    for (const seed of SEEDS) {
      const { room, noor, bram } = inARoom(seed);
      room.deaden(bram);
      room.run(2);
      expect(presenceAt(noor, BRAM, room.now).kind).toBe("there");
      room.run(SILENT_SECONDS - 1);
      expect(presenceAt(noor, BRAM, room.now)).toMatchObject({ kind: "gone", why: "silent" });
      // Nor does the one who sits there hear anything.
      expect(presenceAt(bram, NOOR, room.now)).toMatchObject({ kind: "gone", why: "silent" });
      room.mend(bram, false);
      room.run(4);
      expect({ seed, kind: presenceAt(noor, BRAM, room.now).kind }).toEqual({ seed, kind: "there" });
    }
  });

  test("whose program is opened anew has another id, and does not go on with what was played", () => {
    const { room, noor, bram } = inARoom(1);
    room.lose(bram);
    const other = room.join({ id: "cleo-0004", name: "Cleo" });
    room.run(SILENT_SECONDS + 2);
    expect(presenceAt(noor, BRAM, room.now)).toMatchObject({ kind: "gone" });
    expect(presenceAt(noor, BRAM, room.now)).not.toMatchObject({ why: "anew" });
    const again = room.join({ id: "bram-0003", name: "Bram" });
    for (let time = 0; time < 3; time += 1) {
      again.member.joined(room.now);
      room.run(2);
    }
    expect(presenceAt(noor, BRAM, room.now)).toMatchObject({ kind: "gone", why: "anew" });
    expect(presenceAt(other, NOOR, room.now).kind).toBe("there");
  });

  test("while our own connection is broken nothing is known of them", () => {
    const { room, noor } = inARoom(1);
    expect(presenceAt(noor, BRAM, room.now, false)).toMatchObject({ kind: "gone", why: "here" });
  });
});
