/**
 * A page in which a test can use the program's own modules one by one, as they are built for the browser: for what
 * only a browser has, such as rendering sound.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { createServer, type ViteDevServer } from "vite";

const root = resolve(import.meta.dirname, "../..");

export interface Workshop {
  /** Of an empty page; modules are imported there by their path from the top of the project. */
  readonly address: string;
  readonly close: () => Promise<void>;
}

export async function openWorkshop(): Promise<Workshop> {
  const cacheDir = mkdtempSync(join(tmpdir(), "throneside-workshop-"));
  const server = await createServer({
    root,
    cacheDir,
    configFile: false,
    appType: "custom",
    logLevel: "error",
    server: { port: 0, host: "127.0.0.1", hmr: false, watch: null },
    optimizeDeps: { include: ["react", "zod"], noDiscovery: true },
  });
  server.middlewares.use("/empty", (_request, response) => {
    response.setHeader("Content-Type", "text/html");
    response.end("<!doctype html><title>Workshop</title>");
  });
  await server.listen();
  return {
    address: `${addressOf(server)}empty`,
    close: async () => {
      await server.close();
      rmSync(cacheDir, { recursive: true, force: true });
    },
  };
}

function addressOf(server: ViteDevServer): string {
  const [address] = server.resolvedUrls?.local ?? [];
  if (address === undefined) throw new Error("The workshop's server has no address.");
  return address;
}
