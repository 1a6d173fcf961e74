/**
 * The content security policy (W3C, Content Security Policy Level 3) of the pages, in one place for the desktop
 * shell and for the server that stands in for it: everything comes from the program's own origin, nothing from
 * elsewhere, and no text is ever run as a script.
 */
const directives = {
  "default-src": ["'none'"],
  "script-src": ["'self'"],
  // Charts and layout write style attributes, which count as inline; they cannot run anything.
  "style-src": ["'self'", "'unsafe-inline'"],
  // Vite turns small images and fonts into data: addresses.
  "img-src": ["'self'", "data:"],
  "font-src": ["'self'", "data:"],
  // Recordings are fetched and decoded by the page itself, which is "connect"; no page has an audio element.
  // WebSockets to anywhere: a room is where its address says. Nothing is asked of the network before one is joined.
  "connect-src": ["'self'", "ws:", "wss:"],
  "worker-src": ["'self'"],
  "manifest-src": ["'self'"],
  "base-uri": ["'none'"],
  "form-action": ["'none'"],
  "frame-ancestors": ["'none'"],
  "object-src": ["'none'"],
};

export const contentSecurityPolicy = Object.entries(directives)
  .map(([name, values]) => `${name} ${values.join(" ")}`)
  .join("; ");
