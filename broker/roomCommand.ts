/** What `npm run room` is asked, and what it says of the room that is open. */
import { parseArgs } from "node:util";
import { ROOM_PORT } from "../engine/rooms/index.ts";
import { readCertificate } from "./certificate.ts";
import type { OpenRoom, RoomWanted } from "./openRoom.ts";

export const USAGE = `npm run room -- [--name NAME] [--code CODE] [--port N] [--host ADDRESS] [--cert FILE --key FILE]

  --name   what the room is called (Studio, where none is given)
  --code   the secret that lets in, at least 8 letters or digits (made where none is given)
  --port   the port (${ROOM_PORT}; 0 for any that is free)
  --host   the address it listens at (all of this computer's; 127.0.0.1 for this computer alone)
  --cert   a certificate in PEM, with those between it and the one who vouches for it: the room then speaks TLS alone
  --key    the private key of that certificate, in PEM, without a passphrase`;

/**
 * Reads what was asked.
 *
 * @returns `null` where help was asked for.
 * @throws a TypeError where an option is none, another error with a sentence where its value will not do.
 */
export function readRoomWanted(args: readonly string[]): RoomWanted | null {
  const { values } = parseArgs({
    args: [...args],
    options: {
      name: { type: "string", default: "Studio" },
      code: { type: "string" },
      port: { type: "string", default: String(ROOM_PORT) },
      host: { type: "string" },
      cert: { type: "string" },
      key: { type: "string" },
      help: { type: "boolean", default: false },
    },
  });
  if (values.help) return null;
  const { name, code, host, cert, key } = values;
  const port = Number(values.port);
  if (!/^\d+$/.test(values.port) || port > 65_535)
    throw new Error(`--port needs a number from 0 to 65535, not "${values.port}".`);
  if ((cert === undefined) !== (key === undefined))
    throw new Error(
      `--cert and --key go together: ${cert === undefined ? "the certificate" : "its private key"} is missing.`,
    );
  return {
    name,
    port,
    ...(code === undefined ? {} : { code }),
    ...(host === undefined ? {} : { host }),
    ...(cert === undefined || key === undefined ? {} : { certificate: readCertificate({ cert, key }) }),
  };
}

/** What is read out to those who join. */
export function roomTold({ name, code, addresses }: OpenRoom, isSecret: boolean): string {
  return [
    "The room is open.",
    ...addresses.map((address, index) => `  ${index === 0 ? "address" : "     or"}  ${address}`),
    `  room     ${name}`,
    `  code     ${code}`,
    isSecret
      ? "What passes is encrypted. Those who join must trust the certificate, for the address as it stands here. Ctrl+C ends it."
      : "Without a certificate, what passes can be read by others in the same network. Ctrl+C ends it.",
  ].join("\n");
}
