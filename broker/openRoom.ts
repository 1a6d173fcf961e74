/**
 * A room on this computer: an MQTT broker at one port, for programs (TCP) and for pages (WebSocket) alike, that lets in
 * who has the code and lets nobody say or hear what is not theirs. Nothing is kept: when it ends, it is gone.
 */
import { createHash, randomInt, timingSafeEqual } from "node:crypto";
import { createServer as createHttpServer, type Server as HttpServer } from "node:http";
import { createServer, type Server, type Socket } from "node:net";
import { networkInterfaces } from "node:os";
import type { Duplex } from "node:stream";
import { createServer as createTlsServer } from "node:tls";
import { Aedes, type Client } from "aedes";
import { createWebSocketStream, WebSocketServer } from "ws";
import {
  Bucket,
  madeCode,
  personIdSchema,
  plainCode,
  type Rate,
  RoomTopics,
  SHORTEST_CODE,
} from "../engine/rooms/index.ts";
import type { Certificate } from "./certificate.ts";
import { Front, MOST_PACKET_BYTES } from "./front.ts";
import { REASON } from "./reasons.ts";

export interface RoomWanted {
  readonly name: string;
  /** Made where none is given. */
  readonly code?: string;
  /** All of this computer's addresses where none is given. */
  readonly host?: string;
  /** 0 for any that is free. */
  readonly port: number;
  /** With one the room speaks TLS, and nothing else. */
  readonly certificate?: Certificate;
}

export interface OpenRoom {
  readonly name: string;
  readonly code: string;
  readonly port: number;
  /** Where pages and programs find it: `ws://192.168.1.20:4177`; with a certificate by the names it stands for: `wss://…`. */
  readonly addresses: readonly string[];
  /** How many programs are in it. */
  readonly connected: () => number;
  /** Ends it; all who are in it are parted. */
  readonly close: () => Promise<void>;
}

/** A school has 32 kits; a stand-alone broker is for more. Our choice. */
const MOST_CONNECTED = 1000;
/** Who connects says who they are within this. */
const FIRST_WORD_MS = 5000;
/** Wrong codes from one address: five at once, then one in ten seconds. Our choice. */
const WRONG_CODES: Rate = { perSecond: 0.1, atOnce: 5 };
const MOST_ADDRESSES = 10_000;
const UNKNOWN_ADDRESS = "an unknown address";
/** MQTT: the type of CONNECT, with which every connection begins. */
const CONNECT = 0x10;

/**
 * Opens a room.
 *
 * @param say hears a sentence when somebody is refused or cut off.
 * @throws an error with a sentence where the port is taken, or name or code will not do.
 */
export async function openRoom(
  wanted: RoomWanted,
  say: (sentence: string) => void = () => {},
): Promise<OpenRoom> {
  const topics = new RoomTopics(wanted.name);
  const code = wanted.code ?? madeCode(randomInt);
  if (plainCode(code).length < SHORTEST_CODE)
    throw new Error(
      `The code of a room has at least ${SHORTEST_CODE} letters or digits; leave it out to have one made.`,
    );
  const broker = await Aedes.createBroker({
    connectTimeout: FIRST_WORD_MS,
    drainTimeout: FIRST_WORD_MS,
    // Who subscribes while the session is made must not be thrown out for it.
    queueLimit: 100,
  });
  const guard = new Guard(wanted.name, code, say);
  broker.authenticate = (client, username, password, done) => {
    const refused = guard.refusal(client, username, password);
    if (refused === null) done(null, true);
    else {
      if (client.conn instanceof Front) client.conn.explain(refused.sentence);
      done(Object.assign(new Error(refused.sentence), { returnCode: refused.returnCode }), false);
    }
  };
  broker.authorizePublish = (client, packet, done) => {
    if (client === null || topics.maySend(client.id, packet.topic)) done(null);
    else {
      if (client.conn instanceof Front)
        client.conn.cutOff(REASON.notAuthorized, `Nothing may be sent to "${packet.topic}".`);
      done(new Error("not allowed"));
    }
  };
  broker.authorizeSubscribe = (client, subscription, done) =>
    // `null` refuses this filter and leaves the connection.
    done(null, topics.mayHear(client.id, subscription.topic) ? subscription : null);
  // Broken connections are part of a network; who was cut off was told of by the guard.
  broker.on("clientError", () => {});
  broker.on("connectionError", () => {});
  const fronts = new Set<Front>();
  const handle = (socket: Duplex, from: string): void => {
    const front = new Front(socket, from, () => performance.now() / 1000);
    fronts.add(front);
    front.once("close", () => fronts.delete(front));
    front.once("cut-off", (sentence: string) => say(`Somebody was cut off. ${sentence}`));
    broker.handle(front);
  };
  const pages = pagesTo(handle);
  const take = (socket: Socket): void => sortOut(socket, handle, pages);
  const server = wanted.certificate ? tlsServer(wanted.certificate, take, say) : createServer(take);
  server.maxConnections = MOST_CONNECTED;
  const port = await listen(server, wanted);
  return {
    name: wanted.name,
    code,
    port,
    addresses: addressesOf(wanted, port),
    connected: () => broker.connectedClients,
    close: async () => {
      const closed = new Promise<void>((done) => server.close(() => done()));
      await new Promise<void>((done) => broker.close(done));
      for (const front of fronts) front.destroy();
      await closed;
    },
  };
}

interface Refusal {
  /** MQTT 3.1.1, section 3.2.2.3. */
  readonly returnCode: 2 | 4 | 5;
  readonly sentence: string;
}

/** Says who may come in. */
class Guard {
  readonly #room: string;
  readonly #code: Buffer;
  readonly #tries = new Map<string, Bucket>();
  readonly #say: (sentence: string) => void;

  constructor(room: string, code: string, say: (sentence: string) => void) {
    this.#room = room;
    this.#code = digest(plainCode(code));
    this.#say = say;
  }

  refusal(client: Client, username: string | undefined, password: Buffer | undefined): Refusal | null {
    const from = addressOf(client);
    const right =
      username === this.#room &&
      timingSafeEqual(digest(plainCode(password?.toString("utf8") ?? "")), this.#code);
    if (!right) {
      if (!this.#tryFrom(from)) return { returnCode: 5, sentence: "Too many wrong codes: wait a minute." };
      this.#say(`Somebody at ${from} tried with a wrong room or code.`);
      return { returnCode: 4, sentence: "The room's name or its code is not right." };
    }
    if (!personIdSchema.safeParse(client.id).success)
      return { returnCode: 2, sentence: "This program calls itself by no name that a room takes." };
    return null;
  }

  /** False where too many wrong codes came from there. */
  #tryFrom(address: string): boolean {
    if (this.#tries.size > MOST_ADDRESSES) this.#tries.clear();
    const tries = this.#tries.get(address) ?? new Bucket(WRONG_CODES);
    this.#tries.set(address, tries);
    return tries.take(1, performance.now() / 1000);
  }
}

function digest(text: string): Buffer {
  return createHash("sha256").update(text).digest();
}

function addressOf({ conn }: Client): string {
  return conn instanceof Front ? conn.from : UNKNOWN_ADDRESS;
}

/** Answers pages: WebSocket by the protocol "mqtt" (MQTT 5.0, section 6), and a sentence for whoever looks with a browser. */
function pagesTo(handle: (socket: Duplex, from: string) => void): HttpServer {
  const http = createHttpServer((_request, response) => {
    response.writeHead(426, { "Content-Type": "text/plain; charset=utf-8" });
    response.end("This is a room of Throneside. Join it from the program: Trading, in two places.\n");
  });
  http.headersTimeout = FIRST_WORD_MS;
  const sockets = new WebSocketServer({
    server: http,
    maxPayload: 4 * MOST_PACKET_BYTES,
    handleProtocols: (offered) => (offered.has("mqtt") ? "mqtt" : false),
  });
  sockets.on("connection", (socket, request) => {
    handle(createWebSocketStream(socket), request.socket.remoteAddress ?? UNKNOWN_ADDRESS);
  });
  return http;
}

/** The first byte says whether it is a program or a page. */
function sortOut(socket: Socket, handle: (socket: Duplex, from: string) => void, pages: HttpServer): void {
  socket.on("error", () => socket.destroy());
  socket.setTimeout(FIRST_WORD_MS, () => socket.destroy());
  socket.setNoDelay(true);
  socket.once("data", (first: Buffer) => {
    socket.setTimeout(0);
    socket.pause();
    socket.unshift(first);
    if (first[0] === CONNECT) handle(socket, socket.remoteAddress ?? UNKNOWN_ADDRESS);
    else pages.emit("connection", socket);
    process.nextTick(() => socket.resume());
  });
}

/** Who does not speak TLS, or does not trust the certificate, is told of once. */
function tlsServer(
  { cert, key }: Certificate,
  take: (socket: Socket) => void,
  say: (sentence: string) => void,
): Server {
  const server = createTlsServer({ cert, key, handshakeTimeout: FIRST_WORD_MS }, take);
  const told = new Set<string>();
  server.on("tlsClientError", (error: NodeJS.ErrnoException, socket) => {
    const why = handshakeWords(error.code);
    const sentence = `Somebody at ${socket.remoteAddress ?? UNKNOWN_ADDRESS} could not come in: ${why}`;
    if (why === undefined || told.has(sentence) || told.size >= MOST_ADDRESSES) return;
    told.add(sentence);
    say(sentence);
  });
  return server;
}

/** Of OpenSSL's reasons those that say what is to be done; the others are part of a network. */
function handshakeWords(code: string | undefined): string | undefined {
  switch (code) {
    case "ERR_SSL_HTTP_REQUEST":
    case "ERR_SSL_WRONG_VERSION_NUMBER":
    case "ERR_SSL_PACKET_LENGTH_TOO_LONG":
      return "they speak without TLS. The address begins with wss:// (or mqtts://).";
    case "ERR_SSL_TLSV1_ALERT_UNKNOWN_CA":
    case "ERR_SSL_SSLV3_ALERT_CERTIFICATE_UNKNOWN":
    case "ERR_SSL_SSLV3_ALERT_BAD_CERTIFICATE":
      return "their computer does not trust the certificate, or not for the name they typed.";
    default:
      return undefined;
  }
}

function addressesOf({ host, certificate }: RoomWanted, port: number): readonly string[] {
  // By any other name a certificate is not trusted.
  const named = certificate?.hosts ?? [];
  const way = certificate ? "wss" : "ws";
  return (named.length > 0 ? named : hostsOf(host)).map((each) => `${way}://${each}:${port}`);
}

function listen(server: Server, { host, port }: RoomWanted): Promise<number> {
  return new Promise((settle, fail) => {
    server.once("error", (error: NodeJS.ErrnoException) =>
      fail(
        new Error(
          error.code === "EADDRINUSE"
            ? `Port ${port} is in use: another room, or another program, is there. Choose another port.`
            : `The room could not be opened at port ${port} (${error.message}).`,
          { cause: error },
        ),
      ),
    );
    server.listen(port, host ?? "0.0.0.0", () => {
      const address = server.address();
      settle(typeof address === "object" && address !== null ? address.port : port);
    });
  });
}

/** Under which addresses others find this computer. */
function hostsOf(host: string | undefined): readonly string[] {
  if (host !== undefined && host !== "0.0.0.0") return [host];
  const found = Object.values(networkInterfaces())
    .flatMap((each) => each ?? [])
    .filter(({ family, internal }) => family === "IPv4" && !internal)
    .map(({ address }) => address);
  return [...found, "127.0.0.1"];
}
