/**
 * `npm run room`: opens a room on this computer and says where it is, until it is asked to end.
 */
import { parseArgs } from "node:util";
import { ROOM_PORT } from "../engine/rooms/index.ts";
import { type OpenRoom, openRoom } from "./openRoom.ts";

const USAGE = `npm run room -- [--name NAME] [--code CODE] [--port N] [--host ADDRESS]

  --name   what the room is called (Studio, where none is given)
  --code   the secret that lets in, at least 8 letters or digits (made where none is given)
  --port   the port (${ROOM_PORT}; 0 for any that is free)
  --host   the address it listens at (all of this computer's; 127.0.0.1 for this computer alone)`;

async function main(args: readonly string[]): Promise<void> {
  const { values } = parseArgs({
    args: [...args],
    options: {
      name: { type: "string", default: "Studio" },
      code: { type: "string" },
      port: { type: "string", default: String(ROOM_PORT) },
      host: { type: "string" },
      help: { type: "boolean", default: false },
    },
  });
  if (values.help) {
    console.log(USAGE);
    return;
  }
  const port = Number(values.port);
  if (!/^\d+$/.test(values.port) || port > 65_535)
    throw new Error(`--port needs a number from 0 to 65535, not "${values.port}".`);
  const room = await openRoom(
    {
      name: values.name,
      port,
      ...(values.code === undefined ? {} : { code: values.code }),
      ...(values.host === undefined ? {} : { host: values.host }),
    },
    (sentence) => console.error(sentence),
  );
  const ended = new Promise<void>((end) => {
    process.once("SIGINT", () => end());
    process.once("SIGTERM", () => end());
  });
  console.log(told(room));
  await ended;
  await room.close();
}

/** What is read out to those who join. */
function told({ name, code, addresses }: OpenRoom): string {
  return [
    "The room is open.",
    ...addresses.map((address, index) => `  ${index === 0 ? "address" : "     or"}  ${address}`),
    `  room     ${name}`,
    `  code     ${code}`,
    "Without a certificate, what passes can be read by others in the same network. Ctrl+C ends it.",
  ].join("\n");
}

try {
  await main(process.argv.slice(2));
} catch (error) {
  console.error(error instanceof Error ? error.message : String(error));
  if (error instanceof TypeError) console.error(`\n${USAGE}`);
  process.exitCode = 1;
}
