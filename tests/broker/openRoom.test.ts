import { connect } from "node:net";
import { afterEach, describe, expect, test } from "vitest";
import { type OpenRoom, openRoom } from "../../broker/openRoom.ts";
import { type Joined, join, joined, type Stranger, stranger, strike, until } from "./joined.ts";

const CODE = "TEST-CODE-0001";
const NOOR = "noor-0001";
const BRAM = "bram-0002";

const rooms: OpenRoom[] = [];
const people: Joined[] = [];
const strangers: Stranger[] = [];
const said: string[] = [];

async function opened(port = 0): Promise<OpenRoom> {
  const room = await openRoom({ name: "Millrace", code: CODE, host: "127.0.0.1", port }, (each) =>
    said.push(each),
  );
  rooms.push(room);
  return room;
}

const wishFor = (room: OpenRoom, way: "ws" | "mqtt" = "ws", code = CODE) => ({
  address: `${way}://127.0.0.1:${room.port}`,
  room: "Millrace",
  code,
});

async function comeIn(
  room: OpenRoom,
  id: string,
  about: Parameters<typeof joined>[1] = { id },
  way?: "ws" | "mqtt",
) {
  const one = await joined(wishFor(room, way), { ...about, id });
  people.push(one);
  return one;
}

function strangerAt(room: OpenRoom, options: Parameters<typeof stranger>[1], way = "mqtt"): Stranger {
  const one = stranger(`${way}://127.0.0.1:${room.port}`, options);
  strangers.push(one);
  return one;
}

afterEach(async () => {
  await Promise.all(people.splice(0).map(({ connection }) => connection.leave()));
  for (const { client } of strangers.splice(0)) client.end(true);
  await Promise.all(rooms.splice(0).map((room) => room.close()));
  said.length = 0;
});

describe("a room", () => {
  test("carries strikes between a page and a program, and says who is there", async () => {
    const room = await opened();
    const noor = await comeIn(room, NOOR, { id: NOOR }, "ws");
    const bram = await comeIn(room, BRAM, { id: BRAM, name: "Bram" }, "mqtt");
    await until("both are seen", () =>
      [noor, bram].every(({ connection }) => connection.people().length === 1),
    );
    const hits = Array.from({ length: 50 }, (_, at) => strike(performance.now() / 1000, 36 + at));
    for (const hit of hits) noor.connection.play([hit]);
    await until("all have come", () => bram.hits(NOOR).length >= 50);
    expect(bram.hits(NOOR)).toEqual(hits);
    expect(noor.connection.people()).toMatchObject([{ name: "Bram", isHere: true, role: "player" }]);
    expect(room.connected()).toBe(2);
  });

  test("counts every strike of those who were there before, though how many there are is said right behind them", async () => {
    const room = await opened();
    const ids = Array.from({ length: 20 }, (_, at) => `early-kit-${at}`);
    const kits = await Promise.all(ids.map((id) => comeIn(room, id, { id, role: "kit" })));
    const desk = await comeIn(room, NOOR, { id: NOOR, role: "desk" });
    await until("the desk sees all", () => desk.connection.people().length === kits.length);
    for (const { connection } of kits) {
      const now = performance.now() / 1000;
      connection.play([strike(now, 36)]);
      connection.play([strike(now, 37), strike(now, 38)]);
      // The same that a member says on joining again: who it is, and how many strikes there were.
      connection.member.joined(now);
    }
    for (const { connection } of kits) connection.play([strike(performance.now() / 1000, 39)]);
    await until("the last of each has come", () =>
      ids.every((id) => desk.hits(id).some(({ pad }) => pad === 39)),
    );
    for (const id of ids) expect(desk.hits(id).map(({ pad }) => pad)).toEqual([36, 37, 38, 39]);
  });

  test("finds how far the clocks are apart: on one computer, not at all", async () => {
    const room = await opened();
    const noor = await comeIn(room, NOOR);
    await comeIn(room, BRAM);
    await until("the clock has answered", () => (noor.connection.people()[0]?.clock ?? null) !== null);
    const clock = noor.connection.people()[0]?.clock;
    expect(Math.abs(clock?.offset ?? 1)).toBeLessThanOrEqual(clock?.uncertainty ?? 0);
  });

  test("tells who has gone, by a word or without one", async () => {
    const room = await opened();
    const noor = await comeIn(room, NOOR);
    const bram = await comeIn(room, BRAM);
    await until("Bram is there", () => noor.connection.people()[0]?.isHere === true);
    await bram.connection.leave();
    await until("Bram is gone", () => noor.connection.people()[0]?.isHere === false);
    expect(noor.connection.people()[0]?.hasLeft).toBe(true);
    const guest = strangerAt(room, {
      protocolVersion: 5,
      clientId: "cleo-0003",
      username: room.name,
      password: room.code,
      will: {
        topic: noor.connection.member.topics.own("here", "cleo-0003"),
        payload: "",
        qos: 1,
        retain: true,
      },
    });
    const hello = {
      kind: "hello",
      id: "cleo-0003",
      name: "Cleo",
      program: "0.1.0",
      role: "player",
      sequence: 0,
    };
    guest.client.publish(
      noor.connection.member.topics.own("here", "cleo-0003"),
      JSON.stringify({ version: 1, ...hello }),
      { qos: 1 },
    );
    const cleo = () => noor.connection.people().find(({ name }) => name === "Cleo");
    await until("Cleo is there", () => cleo()?.isHere === true);
    guest.client.stream.destroy();
    await until("Cleo is gone", () => cleo()?.isHere === false);
    expect(cleo()?.hasLeft).toBe(false);
  });

  test("that is closed and opened again is joined again in under three seconds, and nothing is lost", async () => {
    const room = await opened();
    const noor = await comeIn(room, NOOR);
    const bram = await comeIn(room, BRAM);
    await until("both are seen", () =>
      [noor, bram].every(({ connection }) => connection.people().length === 1),
    );
    const played: ReturnType<typeof strike>[] = [];
    const play = () => {
      const hit = strike(performance.now() / 1000, 36 + (played.length % 40));
      played.push(hit);
      noor.connection.play([hit]);
    };
    const playing = setInterval(play, 25);
    try {
      await until("a phrase is on", () => bram.hits(NOOR).length >= 20);
      await room.close();
      rooms.length = 0;
      await until("it is seen to be away", () => noor.connection.standing.get().stage === "away");
      const atBreak = played.length;
      await until("something was played meanwhile", () => played.length > atBreak + 10);
      await opened(room.port);
      const from = performance.now();
      await until("the phrase goes on", () => bram.hits(NOOR).length > atBreak + 10);
      const resumedMs = performance.now() - from;
      console.log(`room closed and opened again: the phrase went on after ${resumedMs.toFixed(0)} ms`);
      expect(resumedMs).toBeLessThan(3000);
    } finally {
      clearInterval(playing);
    }
    await until("all have come", () => bram.hits(NOOR).length >= played.length);
    expect(bram.hits(NOOR)).toEqual(played);
  });

  test("is a sentence where its port is taken, or its code too short, or its name none", async () => {
    const room = await opened();
    await expect(opened(room.port)).rejects.toThrow(`Port ${room.port} is in use`);
    await expect(openRoom({ name: "Millrace", code: "1234", port: 0 })).rejects.toThrow("at least 8");
    await expect(openRoom({ name: "a/#", port: 0 })).rejects.toThrow("cannot name a room");
  });

  test("makes a code where none is given", async () => {
    const room = await openRoom({ name: "Millrace", host: "127.0.0.1", port: 0 });
    rooms.push(room);
    expect(room.code).toMatch(/^\w{4}-\w{4}-\w{4}$/);
  });

  test("answers a browser that only looks with a sentence", async () => {
    const room = await opened();
    const answer = await fetch(`http://127.0.0.1:${room.port}/`);
    expect(answer.status).toBe(426);
    expect(await answer.text()).toContain("room of Throneside");
  });
});

describe("a stranger", () => {
  test("with a wrong code is told so, and does not try again", async () => {
    const room = await opened();
    const one = join(wishFor(room, "ws", "WRONG-CODE-00"), { id: NOOR });
    people.push(one);
    await until("it is refused", () => one.connection.standing.get().stage === "refused");
    expect(one.connection.standing.get()).toMatchObject({
      sentence: expect.stringContaining("code is not right"),
    });
    expect(said.join()).toContain("wrong room or code");
  });

  test("who guesses is shut out, and who has the code is not", async () => {
    const room = await opened();
    for (let time = 0; time < 8; time += 1) {
      const one = strangerAt(room, {
        protocolVersion: 5,
        clientId: "guess-0001",
        username: "Millrace",
        password: `guess-${time}`,
      });
      await until("it is refused", () => one.troubles.length > 0);
    }
    const last = strangerAt(room, {
      protocolVersion: 5,
      clientId: "guess-0001",
      username: "Millrace",
      password: "guess-9",
    });
    await until("it is refused", () => last.troubles.length > 0);
    expect(last.troubles[0]).toContain("Not authorized");
    await comeIn(room, NOOR);
  });

  test.each([4, 5] as const)(
    "without it hears nothing and can send nothing (MQTT version %d)",
    async (protocolVersion) => {
      const room = await opened();
      const noor = await comeIn(room, NOOR);
      const one = strangerAt(room, { protocolVersion, clientId: "stranger-1" });
      one.client.subscribe("#");
      one.client.publish(
        "throneside/Millrace/all",
        JSON.stringify({ version: 1, kind: "call", styleId: "x" }),
      );
      await until("it is refused", () => one.troubles.includes("closed"));
      const bram = await comeIn(room, BRAM);
      bram.connection.play([strike(1)]);
      await until("Noor has heard Bram", () => noor.hits(BRAM).length === 1);
      expect(one.heard).toEqual([]);
      expect(noor.news.some(({ kind }) => kind === "call")).toBe(false);
    },
  );

  test("who speaks before saying who they are, or no MQTT at all, is cut off", async () => {
    const room = await opened();
    for (const bytes of [
      Buffer.from([0x30, 0x05, 0, 1, 97, 1, 2]),
      Buffer.from("GET"),
      Buffer.alloc(64, 0xff),
    ]) {
      const socket = connect(room.port, "127.0.0.1");
      const closed = new Promise((done) => socket.once("close", done));
      socket.on("error", () => socket.destroy());
      // Unread answers would keep it from closing.
      socket.resume();
      socket.write(bytes);
      if (bytes[0] === 71) socket.end();
      await closed;
    }
    await comeIn(room, NOOR);
  });
});

describe("one who is in", () => {
  const inside = {
    protocolVersion: 5,
    clientId: "inside-001",
    username: "Millrace",
    password: CODE,
  } as const;

  test("may not hear what is to others, nor everything at once", async () => {
    const room = await opened();
    const one = strangerAt(room, inside);
    const granted = await one.client
      .subscribeAsync(["#", `throneside/Millrace/to/${NOOR}`, "throneside/Millrace/all"])
      .catch((error: Error) => error);
    expect(granted).toBeInstanceOf(Error);
    const noor = await comeIn(room, NOOR);
    const bram = await comeIn(room, BRAM);
    await until(
      "clocks were asked",
      () => (bram.connection.people().find(({ id }) => id === NOOR)?.clock ?? null) !== null,
    );
    noor.connection.callStyle("bossa-nova");
    await until("the call was heard", () => one.heard.length > 0);
    expect(one.heard.every((each) => each.startsWith("throneside/Millrace/all "))).toBe(true);
  });

  test("who speaks in another's name is cut off with the reason", async () => {
    const room = await opened();
    const noor = await comeIn(room, NOOR);
    const one = strangerAt(room, inside);
    one.client.publish(`throneside/Millrace/hits/${BRAM}`, "{}", { qos: 1 });
    await until("it is cut off", () => one.troubles.includes("closed"));
    expect(one.troubles[0]).toBe('87: Nothing may be sent to "throneside/Millrace/hits/bram-0002".');
    expect(noor.told()).toEqual([]);
  });

  test.each(["mqtt", "ws"])(
    "who sends ten megabytes at once is cut off with the reason (%s)",
    async (way) => {
      const room = await opened();
      const noor = await comeIn(room, NOOR);
      const one = strangerAt(room, inside, way);
      await until("it is in", () => one.client.connected);
      one.client.publish("throneside/Millrace/all", Buffer.alloc(10 * 1024 * 1024, 120), { qos: 1 });
      await until("it is cut off", () => one.troubles.includes("closed"));
      expect(noor.told()).toEqual([]);
      expect(said.join()).toMatch(/A message of 10241 kB was refused: 64 kB is the most/);
    },
  );

  test("who floods is cut off with the reason, and the others play on", async () => {
    const room = await opened();
    const noor = await comeIn(room, NOOR);
    const bram = await comeIn(room, BRAM);
    const one = strangerAt(room, inside);
    await until("it is in", () => one.client.connected);
    for (let time = 0; time < 3000; time += 1) one.client.publish("throneside/Millrace/all", "x");
    await until("it is cut off", () => one.troubles.includes("closed"));
    expect(one.troubles[0]).toContain("96: Too many messages were sent");
    bram.connection.play([strike(1)]);
    await until("Noor has heard Bram", () => noor.hits(BRAM).length === 1);
    expect(noor.connection.standing.get().stage).toBe("joined");
  });
});

describe("no room at all", () => {
  test("is told, and tried again by itself", async () => {
    const room = await opened();
    await room.close();
    rooms.length = 0;
    const one = join(wishFor(room), { id: NOOR });
    people.push(one);
    await until("it is away", () => one.connection.standing.get().stage === "away");
    expect(one.connection.standing.get()).toMatchObject({
      sentence: expect.stringContaining("does not answer"),
    });
    await opened(room.port);
    await until("it is in", () => one.connection.standing.get().stage === "joined");
  });

  test.each(["", "not an address", "http://x", "ws://a:99999"])("%j is no address", (address) => {
    expect(() => join({ address, room: "Millrace", code: CODE }, { id: NOOR })).toThrow(
      "is no address of a room",
    );
  });
});
