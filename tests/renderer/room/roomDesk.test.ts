/** The room of a program, over the real network of this computer, with a real broker between. */
import mqtt from "mqtt";
import { afterEach, describe, expect, test } from "vitest";
import { type OpenRoom, openRoom } from "../../../broker/openRoom.ts";
import type { Hit } from "../../../engine/kit/index.ts";
import type { HeardSummary, Role } from "../../../engine/rooms/index.ts";
import { FIRST_SET } from "../../../engine/rounds/index.ts";
import { lastVoice } from "../../../renderer/room/farKits.ts";
import type { FarForm } from "../../../renderer/room/formsBetween.ts";
import { LabKit } from "../../../renderer/room/labKit.ts";
import { RoomDesk } from "../../../renderer/room/roomDesk.ts";
import { KitLog } from "../../../renderer/session/kitLog.ts";
import { stranger, strike, until } from "../../broker/joined.ts";

const CODE = "TEST-CODE-0001";
const SUMMARY: HeardSummary = {
  styleId: "shuffle",
  styleName: "Shuffle",
  confidence: 0.97,
  tempoBpm: 104,
  leanMs: -6,
  spreadMs: 12,
  voiceAccuracy: 0.9,
};

const rooms: OpenRoom[] = [];
const desks: RoomDesk[] = [];
let made = 0;

afterEach(async () => {
  await Promise.all(desks.splice(0).map((desk) => desk.leave()));
  await Promise.all(rooms.splice(0).map((room) => room.close()));
});

async function opened(port = 0): Promise<OpenRoom> {
  const room = await openRoom({ name: "Millrace", code: CODE, host: "127.0.0.1", port });
  rooms.push(room);
  return room;
}

/** A program with its two kits' logs, in no room yet. */
function program({ version = "0.1.0", connect = async () => mqtt.connect } = {}) {
  const kept = new Map<string, string>();
  const own = new KitLog();
  const far = new KitLog();
  const calls: (string | null)[] = [];
  const reached: string[] = [];
  const sounded: Hit[] = [];
  let tell: (summary: HeardSummary) => void = () => {};
  const desk = new RoomDesk({
    place: {
      getItem: (key) => kept.get(key) ?? null,
      setItem: (key, value) => void kept.set(key, value),
    },
    program: version,
    own,
    far,
    soundFar: () => ({ add: (hits) => void sounded.push(...hits), stop: () => void sounded.splice(0) }),
    fetchConnect: connect,
    reach: async (address) => void reached.push(address),
    labKit: (say) => {
      tell = say;
      const kit = new LabKit(
        () => new Promise(() => {}),
        say,
        () => null,
      );
      kit.called = (styleId) => void calls.push(styleId);
      return kit;
    },
    makeId: () => {
      made += 1;
      return `program-${String(made).padStart(4, "0")}`;
    },
    now: () => performance.now() / 1000,
  });
  desks.push(desk);
  const play = (...hits: readonly Hit[]): void =>
    own.append(hits.map((hit) => ({ source: "kit", live: true, event: { kind: "hit", hit } })));
  return { desk, far, kept, calls, reached, sounded, play, say: (summary: HeardSummary) => tell(summary) };
}

type Program = ReturnType<typeof program>;

const wishFor = (room: Pick<OpenRoom, "port">, name: string, role: Role = "player") => ({
  name,
  address: `ws://127.0.0.1:${room.port}`,
  room: "Millrace",
  username: "",
  role,
});

async function comeIn(
  room: OpenRoom,
  name: string,
  role: Role = "player",
  one = program(),
): Promise<Program> {
  await one.desk.join(wishFor(room, name, role), CODE);
  await until(`${name} has joined`, () => one.desk.get().standing?.stage === "joined");
  return one;
}

/** Whether this one sees so many others, who are here. */
function sees({ desk }: Program, count: number): boolean {
  return desk.get().people.filter(({ isHere }) => isHere).length === count;
}

function haveClocks(...programs: readonly Program[]): boolean {
  return programs.every(({ desk }) => (desk.partner?.clock ?? null) !== null);
}

function now(): number {
  return performance.now() / 1000;
}

function refusal({ desk }: Program): string | undefined {
  const { standing } = desk.get();
  return standing?.stage === "refused" ? standing.sentence : undefined;
}

describe("joining", () => {
  test("what is played at one place is heard as the second kit at the other, at its moment and later by the delay", async () => {
    const room = await opened();
    const noor = await comeIn(room, "Noor");
    const bram = await comeIn(room, "Bram");
    await until("the delay is chosen", () => bram.desk.get().delay !== null);
    expect(bram.desk.partner?.name).toBe("Noor");
    const before = bram.far.get();
    const played = [strike(now(), 38), strike(now() + 0.001, 40)];
    noor.play(...played);
    await until("both have come", () => bram.far.hitsSince(before).length === 2);
    const { delay } = bram.desk.get();
    const later = delay && delay.kind !== "too-far" ? delay.seconds : Number.NaN;
    bram.far.hitsSince(before).forEach((hit, at) => {
      expect(hit.pad).toBe(played[at]?.pad);
      // On one computer the clocks are one: they are known to the time there and back.
      expect(Math.abs(hit.time - (played[at]?.time ?? 0) - later)).toBeLessThan(0.1);
    });
    expect(bram.sounded.map(({ pad }) => pad)).toEqual([38, 40]);
    // Who plays here is not heard here once more.
    expect(noor.far.hitsSince(0)).toEqual([]);
  });

  test("the wish is kept for the next time, and the code is not", async () => {
    const room = await opened();
    const noor = await comeIn(room, "Noor");
    const texts = [...noor.kept.values()].join();
    expect(texts).toContain("Noor");
    expect(texts).not.toContain(CODE);
    expect(noor.reached).toEqual([`ws://127.0.0.1:${room.port}`]);
  });

  test("a wrong code is refused with what to do; the right one then lets in", async () => {
    const room = await opened();
    const noor = program();
    await noor.desk.join(wishFor(room, "Noor"), "WRONG-CODE-0");
    await until("it is refused", () => refusal(noor) !== undefined);
    expect(refusal(noor)).toBe(
      "The room’s name or its code is not right. Read both again where the room was opened.",
    );
    expect(room.connected()).toBe(0);
    await comeIn(room, "Noor", "player", noor);
    expect(room.connected()).toBe(1);
  });

  test("what is no address is refused before anything is fetched or reached", async () => {
    let fetched = 0;
    const noor = program({
      connect: async () => {
        fetched += 1;
        return mqtt.connect;
      },
    });
    await noor.desk.join({ ...wishFor({ port: 1 }, "Noor"), address: "somewhere else" }, CODE);
    expect(refusal(noor)).toContain('"somewhere else" is no address of a room.');
    expect({ fetched, reached: noor.reached }).toEqual({ fetched: 0, reached: [] });
  });

  test("left while the way is still being fetched, nothing is joined", async () => {
    const room = await opened();
    let arrive: (connect: typeof mqtt.connect) => void = () => {};
    const noor = program({ connect: () => new Promise((done) => (arrive = done)) });
    const joining = noor.desk.join(wishFor(room, "Noor"), CODE);
    await until("it is being fetched", () => noor.desk.get().standing?.stage === "joining");
    await noor.desk.leave();
    arrive(mqtt.connect);
    await joining;
    expect(noor.desk.get().standing).toBeNull();
    expect(room.connected()).toBe(0);
  });

  test("who watches sends nothing and hears nothing as a kit", async () => {
    const room = await opened();
    const noor = await comeIn(room, "Noor");
    const cleo = await comeIn(room, "Cleo", "watcher");
    await until("both are seen", () => sees(noor, 1) && sees(cleo, 1));
    cleo.play(strike(now()));
    noor.play(strike(now()));
    await until("Noor's strike is counted", () => cleo.desk.get().people[0]?.strikes === 1);
    expect(noor.desk.get().people[0]?.strikes).toBe(0);
    expect(noor.desk.partner).toBeNull();
  });
});

test("a room that breaks off and is opened again is joined again by itself; what was played meanwhile comes, once", async () => {
  const room = await opened();
  const noor = await comeIn(room, "Noor");
  const bram = await comeIn(room, "Bram");
  await until("the clocks have answered", () => (bram.desk.get().people[0]?.clock ?? null) !== null);
  const { port } = room;
  await room.close();
  await until(
    "both have noticed",
    () => noor.desk.get().standing?.stage === "away" && bram.desk.get().standing?.stage === "away",
  );
  expect(noor.desk.get().standing).toMatchObject({
    sentence: expect.stringMatching(/^The room broke off\./),
  });
  const pads = [36, 37, 38];
  for (const pad of pads) noor.play(strike(now(), pad));
  await opened(port);
  await until(
    "both are back",
    () => noor.desk.get().standing?.stage === "joined" && bram.desk.get().standing?.stage === "joined",
  );
  noor.play(strike(now(), 39));
  await until("all have come", () => bram.far.hitsSince(0).some(({ pad }) => pad === 39));
  expect(bram.far.hitsSince(0).map(({ pad }) => pad)).toEqual([...pads, 39]);
});

test("two people of one name are told apart, and with the first of them one trades", async () => {
  const room = await opened();
  const first = await comeIn(room, "Noor");
  const second = await comeIn(room, "Noor");
  const third = await comeIn(room, "Bram");
  await until("all see all", () => [first, second, third].every((one) => sees(one, 2)));
  const shown = third.desk.get().people.map(({ shownName }) => shownName);
  expect(new Set(shown).size).toBe(2);
  expect(shown.every((name) => name.startsWith("Noor"))).toBe(true);
  // The one here goes by the same name as well.
  expect(second.desk.get().people.map(({ shownName }) => shownName)).not.toContain("Noor");
  await until("the clocks have answered", () => third.desk.get().people.every(({ clock }) => clock !== null));
  second.play(strike(now(), 50));
  first.play(strike(now(), 51));
  await until("one is heard", () => third.far.hitsSince(0).length > 0);
  await until("both are counted", () => third.desk.get().people.every(({ strikes }) => strikes === 1));
  const partner = third.desk.partner?.id;
  const heard = partner === third.desk.get().people[0]?.id ? 51 : 50;
  expect(third.far.hitsSince(0).map(({ pad }) => pad)).toEqual([heard]);
});

describe("a lab", () => {
  test("the desk calls a style to its kits, hears what each strikes and what each has heard", async () => {
    const room = await opened();
    const desk = await comeIn(room, "Teacher", "desk");
    const kits = [await comeIn(room, "Kit 1", "kit"), await comeIn(room, "Kit 2", "kit")];
    await until("the desk sees both", () => sees(desk, 2));
    desk.desk.callStyle("shuffle");
    expect(desk.desk.get().called).toBe("shuffle");
    await until("both are told", () => kits.every(({ desk: kit }) => kit.get().called === "shuffle"));
    desk.desk.callStyle(null);
    await until("both may play what they like", () => kits.every(({ calls }) => calls.length === 2));
    expect(kits.map(({ calls }) => calls)).toEqual([
      ["shuffle", null],
      ["shuffle", null],
    ]);

    let told = 0;
    const stop = desk.desk.kits.subscribe(() => {
      told += 1;
    });
    const [one, two] = desk.desk.get().people.map(({ id }) => id);
    kits[0]?.play(strike(now(), 38), { ...strike(now() + 0.01, 36), voice: "kick" });
    kits[1]?.play(strike(now(), 38));
    await until("the strikes have come", () => desk.desk.get().people.every(({ strikes }) => strikes > 0));
    const last = new Set([one, two].map((id) => lastVoice(desk.desk.kits.of(id ?? ""))));
    expect(last).toEqual(new Set(["kick", "snare"]));
    expect(told).toBeGreaterThan(1);
    // To the desk nobody is a second kit.
    expect(desk.far.hitsSince(0)).toEqual([]);
    stop();

    kits[0]?.say(SUMMARY);
    await until("the desk is told", () =>
      desk.desk.get().people.some(({ name, heard }) => name === "Kit 1" && heard !== null),
    );
    expect(desk.desk.get().people.find(({ name }) => name === "Kit 1")?.heard).toEqual(SUMMARY);
  });

  test("a kit hears no other kit", async () => {
    const room = await opened();
    const desk = await comeIn(room, "Teacher", "desk");
    const one = await comeIn(room, "Kit 1", "kit");
    const two = await comeIn(room, "Kit 2", "kit");
    await until("the desk sees both", () => sees(desk, 2));
    one.play(strike(now()));
    await until("the desk has it", () => desk.desk.get().people.some(({ strikes }) => strikes === 1));
    expect(two.desk.get().people.filter(({ role }) => role === "kit")).toEqual([]);
    expect(two.far.hitsSince(0)).toEqual([]);
  });
});

describe("other versions", () => {
  test("of the room: what is said in one is put aside with what to do, once", async () => {
    const room = await opened();
    const noor = await comeIn(room, "Noor");
    const id = "other-program-1";
    const guest = stranger(`ws://127.0.0.1:${room.port}`, {
      protocolVersion: 5,
      clientId: id,
      username: room.name,
      password: room.code,
    });
    for (let each = 0; each < 3; each += 1)
      // One after the other: a client that is ended while some still wait to go out never ends.
      await guest.client.publishAsync(
        `throneside/Millrace/here/${id}`,
        JSON.stringify({ version: 99, program: "9.0.0", kind: "hello", id }),
        { qos: 1 },
      );
    await until("it is said", () => noor.desk.get().troubles.length > 0);
    await guest.client.endAsync();
    expect(noor.desk.get().troubles).toEqual([
      "A program here (program 9.0.0) speaks version 99 of the room, and this one version 1: they do not understand each other. Put the same version of the program on both computers.",
    ]);
    expect(noor.desk.get().people).toEqual([]);
  });

  test("of the program: it works, and that is said", async () => {
    const room = await opened();
    const noor = await comeIn(room, "Noor");
    await comeIn(room, "Bram", "player", program({ version: "0.2.0" }));
    await until("Bram is seen", () => sees(noor, 1));
    await until("it is said", () => noor.desk.get().troubles.length > 0);
    expect(noor.desk.get().troubles[0]).toMatch(
      /^Bram has version 0\.2\.0 of the program, and this is 0\.1\.0/,
    );
  });
});

describe("a form begun at one place", () => {
  test("is heard at the other once, with its line on the clock there, however often it is said; and when it is left", async () => {
    const room = await opened();
    const noor = await comeIn(room, "Noor");
    const bram = await comeIn(room, "Bram");
    await until(
      "the clocks have answered",
      () => (bram.desk.partner?.clock ?? null) !== null && (noor.desk.partner?.clock ?? null) !== null,
    );
    const forms: FarForm[] = [];
    bram.desk.onForm((form) => forms.push(form));
    const beginsAt = now() + 3;
    noor.desk.sayForm({ set: { ...FIRST_SET, kits: "far" }, calls: true, beginsAt, delaySeconds: 1.2 });
    await until("it is heard", () => forms.length > 0);
    // It is said three times within 0.7 s; a strike that is sent later comes after the last.
    await until("the last has gone", () => now() > beginsAt - 2);
    noor.play(strike(now()));
    await until("the strike has come", () => bram.desk.get().people[0]?.strikes === 1);
    expect(forms.length).toBe(1);
    expect(forms[0]?.calls).toBe(true);
    expect(Math.abs((forms[0]?.line ?? 0) - beginsAt - 1.2)).toBeLessThan(0.1);

    let left = 0;
    bram.desk.onFormLeft(() => {
      left += 1;
    });
    noor.desk.leaveForm();
    await until("it is heard that it was left", () => left > 0);
  });

  test("is left for both by who answers as well; what is said of it does not end the next one", async () => {
    const room = await opened();
    const noor = await comeIn(room, "Noor");
    const bram = await comeIn(room, "Bram");
    await until("the clocks have answered", () => haveClocks(noor, bram));
    let forms = 0;
    let left = 0;
    bram.desk.onForm(() => {
      forms += 1;
    });
    noor.desk.onFormLeft(() => {
      left += 1;
    });
    const form = { set: { ...FIRST_SET, kits: "far" as const }, calls: true, delaySeconds: 1.2 };
    noor.desk.sayForm({ ...form, beginsAt: now() + 5 });
    await until("Bram hears of the form", () => forms === 1);
    bram.desk.leaveForm();
    await until("Noor hears that it was left", () => left > 0);
    const before = left;
    noor.desk.sayForm({ ...form, beginsAt: now() + 6 });
    // Bram has not heard of the next one yet: this is said of the one before.
    bram.desk.leaveForm();
    await until("Bram hears of the next form", () => forms === 2);
    bram.play(strike(now()));
    await until("Bram's strike has come, after what was said", () => noor.sounded.length === 1);
    expect(left).toBe(before);
  });

  test("has the same partner to its end, gone or not, and a third player is not taken for them", async () => {
    const room = await opened();
    const noor = await comeIn(room, "Noor");
    const bram = await comeIn(room, "Bram");
    await until("the clocks have answered", () => haveClocks(noor, bram));
    noor.desk.holdDelay(0.3);
    const cleo = await comeIn(room, "Cleo");
    await bram.desk.leave();
    await until("Bram has left", () => noor.desk.presence.kind === "gone");
    expect(noor.desk.presence).toMatchObject({ why: "left" });
    expect(noor.desk.partner).toMatchObject({ shownName: "Bram", isHere: false });
    cleo.play(strike(now()));
    await until("Cleo's strike is counted", () =>
      noor.desk.get().people.some(({ name, strikes }) => name === "Cleo" && strikes === 1),
    );
    expect(noor.sounded).toEqual([]);
    noor.desk.holdDelay(null);
    expect(noor.desk.partner?.shownName).toBe("Cleo");
    expect(noor.desk.presence.kind).toBe("there");
  });

  test("holds its delay: what is struck far away is sounded as soon as it is known, and heard at its moment", async () => {
    const room = await opened();
    const noor = await comeIn(room, "Noor");
    const bram = await comeIn(room, "Bram");
    await until("the clocks have answered", () => haveClocks(noor, bram));
    noor.desk.holdDelay(1.5);
    const struckAt = now();
    bram.play(strike(struckAt));
    await until("it is handed to be sounded", () => noor.sounded.length === 1);
    const [sounded] = noor.sounded;
    expect((sounded?.time ?? 0) - now()).toBeGreaterThan(0);
    expect(Math.abs((sounded?.time ?? 0) - struckAt - 1.5)).toBeLessThan(0.1);
    expect(noor.far.hitsSince(0)).toEqual([]);
    await until("its moment has come", () => noor.far.hitsSince(0).length === 1);
    expect(now()).toBeGreaterThanOrEqual(sounded?.time ?? Number.NaN);
    expect(noor.far.entries[0]?.source).toBe("far");
  });
});

test("who leaves is gone by their own word, and what is played after that goes nowhere", async () => {
  const room = await opened();
  const noor = await comeIn(room, "Noor");
  const bram = await comeIn(room, "Bram");
  await until(
    "both are seen, and their clocks",
    () => sees(noor, 1) && sees(bram, 1) && (bram.desk.partner?.clock ?? null) !== null,
  );
  noor.play(strike(now()));
  await until("Bram hears it", () => bram.sounded.length === 1);
  await bram.desk.leave();
  expect(bram.sounded).toEqual([]);
  expect(bram.desk.get()).toMatchObject({ standing: null, people: [], delay: null, troubles: [] });
  await until("Noor is told", () => sees(noor, 0));
  expect(noor.desk.get().people[0]).toMatchObject({ name: "Bram", isHere: false, hasLeft: true });
  bram.play(strike(now(), 60));
  // Back again: only what is played from now on goes out.
  await comeIn(room, "Bram", "player", bram);
  await until("Bram is back, as somebody new", () => sees(noor, 1));
  bram.play(strike(now(), 61));
  await until("it is counted", () => noor.desk.get().people.some(({ strikes }) => strikes > 0));
  expect(noor.desk.get().people.map(({ strikes }) => strikes)).toEqual([0, 1]);
});
