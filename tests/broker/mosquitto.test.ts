/**
 * The same client at another broker: mosquitto, from the system's packages, as a reference of MQTT 5.0 (OASIS Standard,
 * 7 March 2019). Where it is not installed this is skipped.
 */
import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join as joinPath } from "node:path";
import mqtt from "mqtt";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type OpenRoom, openRoom } from "../../broker/openRoom.ts";
import { type Joined, joined, stranger, strike, until } from "./joined.ts";

const MOSQUITTO = ["mosquitto", "/usr/sbin/mosquitto"].find(
  (program) => spawnSync(program, ["-h"]).error === undefined,
);
if (MOSQUITTO === undefined)
  console.log("mosquitto is not installed: the client is tried against the room's own broker only.");

const NAME = "Millrace";
const CODE = "TEST-CODE-0001";

function freePort(): Promise<number> {
  return new Promise((settle) => {
    const server = createServer().listen(0, "127.0.0.1", () => {
      const address = server.address();
      server.close(() => settle(typeof address === "object" && address !== null ? address.port : 0));
    });
  });
}

describe.skipIf(MOSQUITTO === undefined)("mosquitto", () => {
  let folder = "";
  let port = 0;
  let broker: ChildProcess;
  const wish = () => ({ address: `mqtt://127.0.0.1:${port}`, room: NAME, code: CODE, username: "school" });

  function start(): ChildProcess {
    return spawn(MOSQUITTO ?? "", ["-c", joinPath(folder, "mosquitto.conf")], { stdio: "ignore" });
  }

  beforeAll(async () => {
    folder = mkdtempSync(joinPath(tmpdir(), "throneside-mosquitto-"));
    port = await freePort();
    const passwords = joinPath(folder, "passwords");
    // Its own program writes what it reads.
    const made = spawnSync("mosquitto_passwd", ["-b", "-c", passwords, "school", CODE]);
    expect(made.status).toBe(0);
    // It gives up the rights of the system's own user, and must still read its files.
    const asMyself = process.getuid?.() === 0 ? "user root\n" : "";
    writeFileSync(
      joinPath(folder, "mosquitto.conf"),
      `${asMyself}listener ${port} 127.0.0.1\nallow_anonymous false\npassword_file ${passwords}\npersistence false\n`,
    );
    broker = start();
    await until("mosquitto answers", () => broker.pid !== undefined);
  });
  afterAll(() => {
    broker.kill("SIGKILL");
    rmSync(folder, { recursive: true });
  });

  test("carries strikes as the room's own broker does, in order, each once", async () => {
    const noor = await joined(wish(), { id: "noor-0001" });
    const bram = await joined(wish(), { id: "bram-0002", name: "Bram" });
    await until("both are seen", () =>
      [noor, bram].every(({ connection }) => connection.people().length === 1),
    );
    const hits = Array.from({ length: 100 }, (_, at) => strike(performance.now() / 1000, 36 + (at % 40)));
    for (const hit of hits) noor.connection.play([hit]);
    await until("all have come", () => bram.hits("noor-0001").length >= 100);
    expect(bram.hits("noor-0001")).toEqual(hits);
    await bram.connection.leave();
    await until("Bram is gone", () => noor.connection.people()[0]?.isHere === false);
    await noor.connection.leave();
  });

  test("killed in the middle of a phrase and started again: resumed in under three seconds, nothing lost", async () => {
    const noor = await joined(wish(), { id: "noor-0001" });
    const bram = await joined(wish(), { id: "bram-0002", name: "Bram" });
    await until("both are seen", () =>
      [noor, bram].every(({ connection }) => connection.people().length === 1),
    );
    const played: ReturnType<typeof strike>[] = [];
    const playing = setInterval(() => {
      const hit = strike(performance.now() / 1000, 36 + (played.length % 40));
      played.push(hit);
      noor.connection.play([hit]);
    }, 25);
    try {
      await until("a phrase is on", () => bram.hits("noor-0001").length >= 20);
      broker.kill("SIGKILL");
      await until("it is away", () => noor.connection.standing.get().stage === "away");
      const before = played.length;
      await until("something was played meanwhile", () => played.length > before + 20);
      broker = start();
      const from = performance.now();
      await until("the phrase goes on", () => bram.hits("noor-0001").length > before + 20);
      const resumedMs = performance.now() - from;
      console.log(`mosquitto killed and started again: the phrase went on after ${resumedMs.toFixed(0)} ms`);
      expect(resumedMs).toBeLessThan(3000);
    } finally {
      clearInterval(playing);
    }
    await until("all have come", () => bram.hits("noor-0001").length >= played.length);
    expect(bram.hits("noor-0001")).toEqual(played);
    await Promise.all([noor, bram].map(({ connection }) => connection.leave()));
  });

  test("a wrong password is told as at a room of ours", async () => {
    const { join } = await import("./joined.ts");
    const one: Joined = join({ ...wish(), code: "WRONG-CODE-00" }, { id: "noor-0001" });
    await until("it is refused", () => one.connection.standing.get().stage === "refused");
    await one.connection.leave();
  });
});

/** What a client sees of MQTT 5.0, in order, at either broker. */
async function whatIsSeen(url: string, username: string): Promise<readonly string[]> {
  const seen: string[] = [];
  const topic = `throneside/${NAME}`;
  const options = { protocolVersion: 5, username, password: CODE, reconnectPeriod: 0 } as const;
  const one = await mqtt.connectAsync(url, { ...options, clientId: "one-00001" });
  const granted = await one.subscribeAsync([`${topic}/all`, `${topic}/here/+`], { qos: 1 });
  seen.push(`granted ${granted.map(({ qos }) => qos).join()}`);
  one.on("message", (on, payload, { qos, retain }) =>
    seen.push(`${on} ${payload.toString()} ${qos} ${retain}`),
  );
  const two = stranger(url, {
    ...options,
    clientId: "two-00002",
    will: { topic: `${topic}/here/two-00002`, payload: "", qos: 1, retain: true },
  });
  await until("two is in", () => two.client.connected);
  for (const qos of [0, 1, 2] as const) await two.client.publishAsync(`${topic}/all`, `by ${qos}`, { qos });
  await two.client.publishAsync(`${topic}/here/two-00002`, "kept", { qos: 1, retain: true });
  await until("all has come", () => seen.length >= 5);
  const late = await mqtt.connectAsync(url, { ...options, clientId: "late-00003" });
  late.on("message", (on, payload, { retain }) => seen.push(`late: ${on} ${payload.toString()} ${retain}`));
  await late.subscribeAsync(`${topic}/here/+`, { qos: 1 });
  await until("what was kept has come", () => seen.length >= 6);
  const packet = await late.unsubscribeAsync([`${topic}/here/+`, `${topic}/all`]);
  seen.push(`unsubscribed: ${packet && "granted" in packet ? String(packet.granted) : ""}`);
  two.client.stream.destroy();
  await until("the will has come", () => seen.some((each) => each.includes("two-00002  ")));
  // Section 3.1.4: the same name from elsewhere closes the first connection.
  const closed = new Promise((done) => one.once("close", () => done(undefined)));
  const again = await mqtt.connectAsync(url, { ...options, clientId: "one-00001" });
  await closed;
  seen.push("taken over");
  await Promise.all([late.endAsync(true), again.endAsync(true), one.endAsync(true)]);
  two.client.end(true);
  return seen;
}

describe("MQTT 5.0 as a client sees it", () => {
  const expected = [
    "granted 1,1",
    `throneside/${NAME}/all by 0 0 false`,
    `throneside/${NAME}/all by 1 1 false`,
    // Subscribed at quality 1: what is sent at 2 comes at 1 (section 3.8.4).
    `throneside/${NAME}/all by 2 1 false`,
    `throneside/${NAME}/here/two-00002 kept 1 false`,
    `late: throneside/${NAME}/here/two-00002 kept true`,
  ];
  let room: OpenRoom;
  beforeAll(async () => {
    room = await openRoom({ name: NAME, code: CODE, host: "127.0.0.1", port: 0 });
  });
  afterAll(() => room.close());

  test("is at the room's own broker what the standard says", async () => {
    const seen = await whatIsSeen(`mqtt://127.0.0.1:${room.port}`, NAME);
    expect(seen.slice(0, 6)).toEqual(expected);
    expect(seen.at(-1)).toBe("taken over");
  });

  test.skipIf(MOSQUITTO === undefined)("and the same at mosquitto", async () => {
    const folder = mkdtempSync(joinPath(tmpdir(), "throneside-mosquitto-"));
    const port = await freePort();
    writeFileSync(joinPath(folder, "mosquitto.conf"), `listener ${port} 127.0.0.1\nallow_anonymous true\n`);
    const broker = spawn(MOSQUITTO ?? "", ["-c", joinPath(folder, "mosquitto.conf")], { stdio: "ignore" });
    try {
      const probe = stranger(`mqtt://127.0.0.1:${port}`, { protocolVersion: 5, reconnectPeriod: 50 });
      await until("mosquitto answers", () => probe.client.connected);
      probe.client.end(true);
      const [ours, theirs] = [
        await whatIsSeen(`mqtt://127.0.0.1:${room.port}`, NAME),
        await whatIsSeen(`mqtt://127.0.0.1:${port}`, NAME),
      ];
      expect(theirs).toEqual(ours);
    } finally {
      broker.kill("SIGKILL");
      rmSync(folder, { recursive: true });
    }
  });
});
