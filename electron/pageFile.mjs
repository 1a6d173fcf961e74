/**
 * From the path of an address to a file of the built pages and its headers. Both the desktop shell's protocol
 * and the server that stands in for it ask here, so neither can give out what the other would not.
 */
import { extname, resolve, sep } from "node:path";
import { contentSecurityPolicy } from "./contentSecurityPolicy.mjs";

/** Media types by the end of the file's name (IANA registry); text is UTF-8 throughout. */
const mediaTypes = {
  ".css": "text/css; charset=utf-8",
  ".flac": "audio/flac",
  ".html": "text/html; charset=utf-8",
  ".ico": "image/x-icon",
  ".jpg": "image/jpeg",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".map": "application/json; charset=utf-8",
  ".md": "text/markdown; charset=utf-8",
  ".mid": "audio/midi",
  ".mjs": "text/javascript; charset=utf-8",
  ".ogg": "audio/ogg",
  ".png": "image/png",
  ".svg": "image/svg+xml; charset=utf-8",
  ".txt": "text/plain; charset=utf-8",
  ".wasm": "application/wasm",
  ".wav": "audio/wav",
  ".webmanifest": "application/manifest+json; charset=utf-8",
  ".webp": "image/webp",
  ".woff": "font/woff",
  ".woff2": "font/woff2",
};

/** Vite names what it builds by a hash of the content: assets/Kit-4f2a_Q9x.js. */
const namedByContent = /[\\/]assets[\\/][^\\/]+-[\w-]{8}\.\w+$/;

export function pageFile(folder, urlPath) {
  const decoded = decode(urlPath);
  // A null byte ends a name early in some systems; a backslash parts folders in others.
  if (decoded === undefined || decoded.includes("\0") || decoded.includes("\\")) return undefined;
  const top = resolve(folder);
  const path = resolve(top, `.${decoded.endsWith("/") ? `${decoded}index.html` : decoded}`);
  return path.startsWith(top + sep) ? path : undefined;
}

export function pageHeaders(path) {
  return {
    "Content-Type": mediaTypes[extname(path).toLowerCase()] ?? "application/octet-stream",
    "Content-Security-Policy": contentSecurityPolicy,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    // Pages are rebuilt in place under the same address; what has its content's hash in its name is never another.
    "Cache-Control": namedByContent.test(path) ? "public, max-age=31536000, immutable" : "no-cache",
  };
}

function decode(urlPath) {
  try {
    return decodeURIComponent(urlPath);
  } catch {
    // Not a well-formed address: there can be no file of that name.
    return undefined;
  }
}
