/** The scheme of the program's own pages in the desktop shell. */
export const scheme = "app";

/** The one host under that scheme. */
export const host = "throneside";

/** The address of the first page. */
export const firstPage = `${scheme}://${host}/`;

/** True if `address` (of a page, or an origin) is one of the program's own pages; false if it is malformed. */
export function isOwn(address: string): boolean {
  if (!URL.canParse(address)) return false;
  // `origin` is "null" for schemes the URL standard does not know, so scheme and host are looked at one by one.
  const url = new URL(address);
  return url.protocol === `${scheme}:` && url.host === host;
}
