/** A page of a test's own, made of the program's parts: bundled, and served on this computer. */
import { once } from "node:events";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { build } from "vite";

export interface Request {
  /** By the calendar: milliseconds since 1970. */
  readonly atMs: number;
  /** As `GET /page.js`. */
  readonly asked: string;
}

export interface ServedPage {
  readonly address: string;
  /** What the page posts to this path next. */
  readonly said: (path: string) => Promise<unknown>;
  /** Every request so far, oldest first; the same array grows. */
  readonly requests: readonly Request[];
  readonly close: () => void;
}

/** @param entry the page's script. */
export async function servePage(entry: string): Promise<ServedPage> {
  const script = await bundled(entry);
  const waiting = new Map<string, (said: unknown) => void>();
  const requests: Request[] = [];
  const server = createServer((request, response) => {
    requests.push({ atMs: Date.now(), asked: `${request.method} ${request.url}` });
    if (request.method === "POST") {
      let body = "";
      request.on("data", (part) => {
        body += String(part);
      });
      request.on("end", () => {
        waiting.get(request.url ?? "")?.(JSON.parse(body));
        response.end();
      });
      return;
    }
    const isScript = request.url === "/page.js";
    response.setHeader("content-type", isScript ? "text/javascript" : "text/html");
    response.end(
      isScript
        ? script
        : '<!doctype html><link rel="icon" href="data:,"><script type="module" src="/page.js"></script>',
    );
  });
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    said: (path) => new Promise((done) => waiting.set(path, done)),
    requests,
    close: () => {
      server.close();
      server.closeAllConnections();
    },
  };
}

async function bundled(entry: string): Promise<string> {
  const built = await build({
    configFile: false,
    logLevel: "silent",
    define: { "process.env.NODE_ENV": '"production"' },
    build: {
      write: false,
      minify: false,
      target: "chrome120",
      lib: { entry, formats: ["es"], fileName: "page" },
    },
  });
  const [first] = Array.isArray(built) ? built : [built];
  if (!first || !("output" in first)) throw new Error("The page was not built.");
  return first.output[0].code;
}
