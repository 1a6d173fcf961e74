import { readFile } from "node:fs/promises";
import type { CustomScheme } from "electron";
import { isOwn, scheme } from "./origin.ts";
import { pageFile, pageHeaders } from "./pageFile.mjs";

/**
 * What Chromium is told about the scheme before the app is ready: like https in all that pages depend on. Without
 * `standard` and `secure` there is no Web MIDI, no storage and no worker.
 */
export const appScheme: CustomScheme = {
  scheme,
  privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true },
};

/** The handler that answers requests for the program's own pages with the files in `folder`. */
export function answerFrom(folder: string): (request: Request) => Promise<Response> {
  return async (request) => {
    if (!isOwn(request.url)) return refusal(404, "There is no such place.");
    if (request.method !== "GET" && request.method !== "HEAD")
      return refusal(405, "Only GET and HEAD are answered here.");
    const path = pageFile(folder, new URL(request.url).pathname);
    const bytes = path === undefined ? undefined : await readIfThere(path);
    if (path === undefined || bytes === undefined) return refusal(404, "There is no such file.");
    return new Response(request.method === "HEAD" ? null : bytes, { headers: pageHeaders(path) });
  };
}

function refusal(status: number, sentence: string): Response {
  return new Response(`${sentence}\n`, { status, headers: pageHeaders("refusal.txt") });
}

/** The bytes of the file at `path`, or undefined if there is no such file; throws on anything else. */
async function readIfThere(path: string): Promise<Uint8Array<ArrayBuffer> | undefined> {
  try {
    return new Uint8Array(await readFile(path));
  } catch (error) {
    if (error instanceof Error && "code" in error && isAbsence(error.code)) return undefined;
    throw error;
  }
}

function isAbsence(code: unknown): boolean {
  return code === "ENOENT" || code === "EISDIR" || code === "ENOTDIR" || code === "ENAMETOOLONG";
}
