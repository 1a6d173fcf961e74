import { describe, expect, test } from "vitest";
import type { OpenRoom, RoomWanted } from "../../broker/openRoom.ts";
import { RoomHere } from "../../electron/roomHere.ts";

/** Opens nothing, and writes down what it is asked. */
function fakeBroker(trouble?: string) {
  const asked: RoomWanted[] = [];
  let closed = 0;
  const openRoom = async (wanted: RoomWanted): Promise<OpenRoom> => {
    asked.push(wanted);
    if (trouble !== undefined) throw new Error(trouble);
    return {
      name: wanted.name,
      code: "ABCD-EFGH-JKLM",
      port: wanted.port,
      addresses: ["ws://192.168.1.20:4177"],
      connected: () => 0,
      close: async () => {
        closed += 1;
      },
    };
  };
  return { asked, closed: () => closed, openRoom };
}

describe("a room of the desktop shell", () => {
  test("is opened once, told again, and closed", async () => {
    const { asked, closed, openRoom } = fakeBroker();
    const room = new RoomHere(openRoom);
    const open = {
      kind: "open",
      name: "Millrace",
      addresses: ["ws://192.168.1.20:4177"],
      code: "ABCD-EFGH-JKLM",
    };
    expect(await room.open("Millrace")).toEqual(open);
    expect(await room.open("Another")).toEqual(open);
    expect(asked).toEqual([{ name: "Millrace", port: 4177 }]);
    expect(await room.close()).toEqual({ kind: "closed" });
    expect(await room.close()).toEqual({ kind: "closed" });
    expect(closed()).toBe(1);
    await room.open("Another");
    expect(asked).toHaveLength(2);
  });

  test("that cannot be opened says why, and can be tried again", async () => {
    const { asked, openRoom } = fakeBroker("Port 4177 is in use.");
    const room = new RoomHere(openRoom);
    expect(await room.open("Millrace")).toEqual({ kind: "failed", reason: "Port 4177 is in use." });
    await room.open("Millrace");
    expect(asked).toHaveLength(2);
  });
});
