/**
 * Serves a folder of built pages to browsers on this computer: `node scripts/serve.mjs [--port N]` for
 * dist/renderer. It listens on the loopback address only, gives out files and nothing else.
 */
import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { createServer } from "node:http";
import { join } from "node:path";
import { pageFile, pageHeaders } from "../electron/pageFile.mjs";
import { isProgram, root, runAsProgram, say } from "./command.mjs";

const host = "127.0.0.1";

/** The port that is tried first when none is chosen. */
export const usualPort = 4173;

/** How many ports are tried from the usual one on: enough for every plausible neighbour, then it is odd. */
const portsTried = 20;

export const pagesFolder = join(root, "dist", "renderer");

/**
 * Serves `folder` at `port`, or at the first free port from the usual one on if `port` is undefined.
 * Gives the server and its address; throws a sentence if the port is taken.
 */
export async function serve(folder, port) {
  const last = port ?? usualPort + portsTried - 1;
  for (let tried = port ?? usualPort; tried <= last; tried += 1) {
    const server = await listen(folder, tried);
    if (server !== undefined) return { server, address: `http://${host}:${server.address().port}/` };
  }
  throw new Error(
    port === undefined
      ? `Ports ${usualPort} to ${last} are all in use; choose a free one with --port N.`
      : `Port ${port} is in use; choose another with --port N.`,
  );
}

/** Settles when the terminal or the system asks the program to end, with the server closed. */
export function untilAskedToEnd(server) {
  return new Promise((settle) => {
    const end = () => {
      clearInterval(watch);
      server.close(() => settle());
      // Browsers keep connections open in between; without this the program would wait for them.
      server.closeAllConnections();
    };
    process.once("SIGINT", end);
    process.once("SIGTERM", end);
    const watch = watchStarter(end);
  });
}

/**
 * Calls `end` once the shell that npm started this in is gone: when npm is asked to end it passes that on to its
 * shell, and the shell does not pass it on to us.
 */
function watchStarter(end) {
  if (process.env.npm_lifecycle_event === undefined) return undefined;
  const starter = process.ppid;
  return setInterval(() => {
    if (process.ppid !== starter) end();
  }, 500);
}

/** The N of `--port N`, or undefined if there is none; throws a sentence if it is no port. */
export function portFrom(args) {
  const at = args.findIndex((arg) => arg === "--port" || arg.startsWith("--port="));
  if (at === -1) return undefined;
  const text = args[at].includes("=") ? args[at].slice("--port=".length) : (args[at + 1] ?? "");
  const port = Number(text);
  if (/^\d+$/.test(text) && port <= 65_535) return port;
  throw new Error(`--port needs a number from 0 (any free port) to 65535, not "${text}".`);
}

/** The listening server, or undefined if the port is taken; throws what else goes wrong. */
function listen(folder, port) {
  return new Promise((settle, fail) => {
    const server = createServer((request, response) => {
      answer(folder, request, response).catch((error) => {
        console.error(`${request.method} ${request.url}: ${error.message}`);
        if (response.headersSent) response.destroy();
        else refuse(response, 500, "The file could not be read; the terminal says why.");
      });
    });
    server.once("error", (error) => {
      if (error.code === "EADDRINUSE") settle(undefined);
      else
        fail(new Error(`Port ${port} on ${host} could not be opened (${error.message}).`, { cause: error }));
    });
    server.listen(port, host, () => settle(server));
  });
}

async function answer(folder, request, response) {
  if (request.method !== "GET" && request.method !== "HEAD") {
    response.setHeader("Allow", "GET, HEAD");
    return refuse(response, 405, "Only GET and HEAD are answered here.");
  }
  const [urlPath = "/"] = request.url.split(/[?#]/);
  const path = pageFile(folder, urlPath);
  const size = path === undefined ? undefined : await sizeOfFile(path);
  if (size === undefined) return refuse(response, 404, "There is no such file.");
  response.writeHead(200, { ...pageHeaders(path), "Content-Length": size });
  if (request.method === "HEAD") return response.end();
  const file = createReadStream(path);
  file.on("error", (error) => response.destroy(error));
  file.pipe(response);
}

/** Bytes of the file at `path`, or undefined if there is no such file. */
async function sizeOfFile(path) {
  try {
    const status = await stat(path);
    return status.isFile() ? status.size : undefined;
  } catch (error) {
    if (["ENOENT", "ENOTDIR", "ENAMETOOLONG"].includes(error.code)) return undefined;
    throw error;
  }
}

function refuse(response, status, sentence) {
  response.writeHead(status, pageHeaders("refusal.txt"));
  response.end(`${sentence}\n`);
}

if (isProgram(import.meta.url)) {
  await runAsProgram(async () => {
    const { server, address } = await serve(pagesFolder, portFrom(process.argv.slice(2)));
    // From here on it ends well when asked to, so this comes before the address is told.
    const end = untilAskedToEnd(server);
    say(`serving dist/renderer at ${address}`);
    await end;
    return 0;
  });
}
