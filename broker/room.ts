/**
 * `npm run room`: opens a room on this computer and says where it is, until it is asked to end.
 */
import { openRoom } from "./openRoom.ts";
import { readRoomWanted, roomTold, USAGE } from "./roomCommand.ts";

async function main(args: readonly string[]): Promise<void> {
  const wanted = readRoomWanted(args);
  if (wanted === null) {
    console.log(USAGE);
    return;
  }
  const room = await openRoom(wanted, (sentence) => console.error(sentence));
  const ended = new Promise<void>((end) => {
    process.once("SIGINT", () => end());
    process.once("SIGTERM", () => end());
  });
  console.log(roomTold(room, wanted.certificate !== undefined));
  await ended;
  await room.close();
}

try {
  await main(process.argv.slice(2));
} catch (error) {
  console.error(error instanceof Error ? error.message : String(error));
  if (error instanceof TypeError) console.error(`\n${USAGE}`);
  process.exitCode = 1;
}
