/**
 * `npm start`: opens Throneside, in the desktop shell where there is one, else at an address for the browser.
 * `npm start -- --port N` chooses the port of that address.
 */
import { existsSync } from "node:fs";
import { join } from "node:path";
import { buildIfOld } from "./build.mjs";
import { runAsProgram, say } from "./command.mjs";
import { desktopHere, openDesktop } from "./desktop.mjs";
import { prepare } from "./install.mjs";
import { pagesFolder, portFrom, serve, untilAskedToEnd, usualPort } from "./serve.mjs";

await runAsProgram(async () => {
  const port = portFrom(process.argv.slice(2));
  await prepare();
  if ((await buildIfOld()) !== 0) return 1;
  if (!existsSync(join(pagesFolder, "index.html"))) {
    throw new Error("There is nothing to show: renderer/index.html, where the pages start, does not exist.");
  }
  const desktop = desktopHere();
  if (desktop.path === undefined)
    return serveToBrowser(`${desktop.missing}, so the browser is used instead`, port);
  say("opening the desktop shell.");
  const code = await openDesktop(desktop.path);
  if (code === 0) return 0;
  return serveToBrowser(`the desktop shell ended with code ${code}, so the browser is used instead`, port);
});

async function serveToBrowser(why, port) {
  const { server, address } = await serve(pagesFolder, port);
  const end = untilAskedToEnd(server);
  say(`${why}; that is fine, the program is the same.`);
  say("Hearing a kit needs Web MIDI: use a browser of the Chromium family.");
  if (!address.endsWith(`:${usualPort}/`)) {
    say(
      `What a browser keeps belongs to the address: lessons kept at port ${usualPort} are not seen at this one.`,
    );
  }
  say(`Throneside is at ${address} (Ctrl+C ends it)`);
  await end;
  say("ended.");
  return 0;
}
