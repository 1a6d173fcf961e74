import { spawn, spawnSync } from "node:child_process";
import { generateKeyPairSync } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import mqtt, { type IClientOptions } from "mqtt";
import { afterAll, afterEach, describe, expect, test } from "vitest";
import { readCertificate } from "../../broker/certificate.ts";
import { type OpenRoom, openRoom } from "../../broker/openRoom.ts";
import { readRoomWanted, roomTold } from "../../broker/roomCommand.ts";
import { RoomConnection } from "../../renderer/room/roomConnection.ts";
import { stranger, until } from "./joined.ts";

const CERT = fileURLToPath(new URL("../fixtures/room-tls/cert.pem", import.meta.url));
const KEY = fileURLToPath(new URL("../fixtures/room-tls/key.pem", import.meta.url));
const HAS_OPENSSL = spawnSync("openssl", ["version"]).status === 0;
const CODE = "TEST-CODE-0003";
const folder = mkdtempSync(join(tmpdir(), "throneside-certificate-"));
afterAll(() => rmSync(folder, { recursive: true }));

function file(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

function newKey(passphrase?: string): string {
  const { privateKey } = generateKeyPairSync("ec", { namedCurve: "P-256" });
  return privateKey
    .export({
      type: "pkcs8",
      format: "pem",
      ...(passphrase === undefined ? {} : { cipher: "aes-256-cbc", passphrase }),
    })
    .toString();
}

describe("a certificate and its key", () => {
  test("are read, with the names the certificate stands for", () => {
    expect(readCertificate({ cert: CERT, key: KEY })).toEqual({
      cert: readFileSync(CERT, "utf8"),
      key: readFileSync(KEY, "utf8"),
      hosts: ["localhost", "127.0.0.1"],
    });
  });

  test.each([
    [
      "no such certificate",
      { cert: join(folder, "none.pem"), key: KEY },
      /^The certificate could not be read from ".*none\.pem" \(ENOENT.*\)\. Give --cert the path/,
    ],
    [
      "no such key",
      { cert: CERT, key: join(folder, "none.pem") },
      /^The key could not be read from ".*none\.pem" \(ENOENT.*\)\. Give --key the path/,
    ],
    ["a folder", { cert: folder, key: KEY }, /^The certificate could not be read from .*EISDIR/],
    [
      "the key in place of the certificate",
      { cert: KEY, key: KEY },
      /^".*key\.pem" holds no certificate in PEM.*Give --cert such a file\.$/,
    ],
    [
      "the certificate in place of the key",
      { cert: CERT, key: CERT },
      /^".*cert\.pem" holds no private key in PEM.*Give --key such a file\.$/,
    ],
    ["no PEM", { cert: file("text.pem", "hello"), key: KEY }, /holds no certificate in PEM/],
    [
      "another's key",
      { cert: CERT, key: file("other.pem", newKey()) },
      /^The key in ".*other\.pem" is not that of the certificate in ".*cert\.pem": give the two that were made together\.$/,
    ],
    [
      "a locked key",
      { cert: CERT, key: file("locked.pem", newKey("secret")) },
      /^The key in ".*locked\.pem" is locked with a passphrase/,
    ],
  ] as const)("with %s are refused in one sentence or two", (_, paths, sentence) => {
    expect(() => readCertificate(paths)).toThrow(sentence);
  });

  test.each(["2020-01-01", "2200-01-01"])("out of date on %s are refused, with the dates", (day) => {
    expect(() => readCertificate({ cert: CERT, key: KEY }, new Date(day))).toThrow(
      new RegExp(`is valid from 2026-\\d\\d-\\d\\d to 2126-\\d\\d-\\d\\d, and today is ${day}`),
    );
  });
});

describe("npm run room", () => {
  test("takes both or neither", () => {
    expect(() => readRoomWanted(["--cert", CERT])).toThrow(
      "--cert and --key go together: its private key is missing.",
    );
    expect(() => readRoomWanted(["--key", KEY])).toThrow(
      "--cert and --key go together: the certificate is missing.",
    );
    expect(readRoomWanted(["--port", "0"])).toEqual({ name: "Studio", port: 0 });
    expect(readRoomWanted(["--help"])).toBeNull();
    expect(() => readRoomWanted(["--port", "70000"])).toThrow(
      '--port needs a number from 0 to 65535, not "70000".',
    );
    expect(() => readRoomWanted(["--tls"])).toThrow(TypeError);
  });

  test("says with which address, and whether others can read what passes", () => {
    const room = {
      name: "Millrace",
      code: CODE,
      port: 1,
      addresses: ["wss://localhost:1", "wss://127.0.0.1:1"],
      connected: () => 0,
      close: async () => {},
    };
    expect(roomTold(room, true)).toMatch(
      /address {2}wss:\/\/localhost:1\n {7}or {2}wss:\/\/127\.0\.0\.1:1\n(?:.*\n)*.*What passes is encrypted/,
    );
    expect(roomTold({ ...room, addresses: ["ws://127.0.0.1:1"] }, false)).toMatch(
      /address {2}ws:\/\/127\.0\.0\.1:1\n(?:.*\n)*.*can be read by others/,
    );
  });
});

describe("a room with TLS", () => {
  const said: string[] = [];
  const rooms: OpenRoom[] = [];
  const connections: RoomConnection[] = [];
  afterEach(async () => {
    await Promise.all(connections.splice(0).map((each) => each.leave()));
    await Promise.all(rooms.splice(0).map((each) => each.close()));
    said.length = 0;
  });

  async function opened(): Promise<OpenRoom> {
    const wanted = readRoomWanted([
      "--name",
      "Millrace",
      "--code",
      CODE,
      "--port",
      "0",
      "--host",
      "127.0.0.1",
      "--cert",
      CERT,
      "--key",
      KEY,
    ]);
    if (wanted === null) throw new Error("No help was asked for.");
    const room = await openRoom(wanted, (sentence) => said.push(sentence));
    rooms.push(room);
    return room;
  }

  function join(address: string, id: string, trust: IClientOptions): RoomConnection {
    const connection = new RoomConnection(
      { address, room: "Millrace", code: CODE },
      { id, name: id, program: "0.1.0", role: "player" },
      () => {},
      (url, options) => mqtt.connect(url, { ...options, ...trust }),
    );
    connections.push(connection);
    return connection;
  }

  test("is joined by pages (wss) and by programs (mqtts) that trust the certificate, and they see each other", async () => {
    const room = await opened();
    expect(room.addresses).toEqual([`wss://localhost:${room.port}`, `wss://127.0.0.1:${room.port}`]);
    const trust = { ca: readFileSync(CERT) };
    const noor = join(`wss://127.0.0.1:${room.port}`, "noor-0001", trust);
    const bram = join(`mqtts://127.0.0.1:${room.port}`, "bram-0002", trust);
    await until("they see each other", () => [noor, bram].every((each) => each.people()[0]?.isHere === true));
    expect(said).toEqual([]);
  });

  test("who does not trust it does not come in", async () => {
    const room = await opened();
    const noor = join(`wss://127.0.0.1:${room.port}`, "noor-0001", {});
    await until("it was refused", () => noor.standing.get().stage === "away");
    expect(room.connected()).toBe(0);
  });

  test("who comes without TLS is told of, once, with what to do", async () => {
    const room = await opened();
    const options = {
      protocolVersion: 5,
      clientId: "bram-0002",
      username: "Millrace",
      password: CODE,
    } as const;
    for (const way of ["ws", "mqtt", "ws", "mqtt"]) {
      const plain = stranger(`${way}://127.0.0.1:${room.port}`, options);
      await until("it is closed", () => plain.troubles.includes("closed"));
      plain.client.end(true);
    }
    expect(said).toEqual([
      "Somebody at 127.0.0.1 could not come in: they speak without TLS. The address begins with wss:// (or mqtts://).",
    ]);
    expect(room.connected()).toBe(0);
  });

  test.skipIf(!HAS_OPENSSL)(
    "whose computer says that it does not trust it is told of (needs openssl)",
    async () => {
      const room = await opened();
      // It breaks the handshake off with the reason, as browsers do.
      const client = spawn("openssl", [
        "s_client",
        "-verify_return_error",
        "-connect",
        `127.0.0.1:${room.port}`,
      ]);
      client.stdin.end();
      await until("that is said", () => said.length > 0);
      expect(said).toEqual([
        "Somebody at 127.0.0.1 could not come in: their computer does not trust the certificate, or not for the name they typed.",
      ]);
      client.kill();
    },
  );
});
