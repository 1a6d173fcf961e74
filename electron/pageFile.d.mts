/**
 * The absolute path of the file that `urlPath` (the path of an address, starting with "/", still percent-encoded)
 * means in `folder`, or undefined if it is malformed or would lie outside. Whether the file exists is not looked at;
 * a path that ends in "/" means the index.html there.
 */
export declare function pageFile(folder: string, urlPath: string): string | undefined;

/** The headers to send with the file at `path`: its media type, the content security policy, no guessing of types. */
export declare function pageHeaders(path: string): Record<string, string>;
