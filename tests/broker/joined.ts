/** Programs in a room over the real network of this computer, and waiting for what becomes of them. */
import mqtt, { type IClientOptions, type MqttClient } from "mqtt";
import type { Hit } from "../../engine/kit/index.ts";
import type { Me, PersonId, RoomNews } from "../../engine/rooms/index.ts";
import { RoomConnection, type RoomWish } from "../../renderer/room/roomConnection.ts";

export interface Joined {
  readonly connection: RoomConnection;
  readonly news: RoomNews[];
  readonly hits: (from: PersonId) => readonly Hit[];
  readonly told: () => readonly string[];
}

export function join(wish: RoomWish, me: Partial<Me> & { readonly id: PersonId }): Joined {
  const news: RoomNews[] = [];
  const connection = new RoomConnection(
    wish,
    { name: "Noor", program: "0.1.0", role: "player", ...me },
    (each) => news.push(each),
    mqtt.connect,
  );
  return {
    connection,
    news,
    hits: (from) => news.flatMap((each) => (each.kind === "hits" && each.from === from ? each.hits : [])),
    told: () => news.flatMap((each) => (each.kind === "trouble" ? [each.sentence] : [])),
  };
}

/** Waits until something holds; fails with its name after a while. */
export async function until(what: string, holds: () => boolean, withinMs = 20_000): Promise<void> {
  const end = performance.now() + withinMs;
  while (!holds()) {
    if (performance.now() > end) throw new Error(`This did not come about: ${what}.`);
    await new Promise((done) => setTimeout(done, 5));
  }
}

export async function joined(wish: RoomWish, me: Partial<Me> & { readonly id: PersonId }): Promise<Joined> {
  const one = join(wish, me);
  await until(`${me.id} has joined`, () => one.connection.standing.get().stage === "joined");
  return one;
}

export interface Stranger {
  readonly client: MqttClient;
  readonly heard: string[];
  readonly troubles: string[];
}

/** A client of no program of ours. */
export function stranger(url: string, options: IClientOptions): Stranger {
  const client = mqtt.connect(url, { reconnectPeriod: 0, connectTimeout: 5000, ...options });
  const heard: string[] = [];
  const troubles: string[] = [];
  client.on("message", (topic, payload) => heard.push(`${topic} ${payload.toString()}`));
  client.on("error", (error) => troubles.push(error.message));
  client.on("disconnect", ({ reasonCode, properties }) =>
    troubles.push(`${reasonCode?.toString(16)}: ${properties?.reasonString}`),
  );
  client.on("close", () => troubles.push("closed"));
  return { client, heard, troubles };
}

export function strike(time: number, pad = 38): Hit {
  return { time: Math.round(time * 1e6) / 1e6, voice: "snare", zone: "head", velocity: 0.5, pad };
}
