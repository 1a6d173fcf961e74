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
  const scripts = await bundled(entry);
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
    const script = scripts.get(request.url ?? "");
    response.setHeader("content-type", script === undefined ? "text/html" : "text/javascript");
    response.end(
      script ?? `<!doctype html><link rel="icon" href="data:,"><script type="module" src="${PAGE}"></script>`,
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

const PAGE = "/page.js";

/** The page's script and whatever it is split into, by the path each is asked for. */
async function bundled(entry: string): Promise<ReadonlyMap<string, string>> {
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
  const scripts = first.output.flatMap((part): readonly [string, string][] =>
    part.type === "chunk" ? [[part.isEntry ? PAGE : `/${part.fileName}`, part.code]] : [],
  );
  return new Map(scripts);
}
