import type { Server } from "node:http";

/** The port that is tried first when none is chosen. */
export declare const usualPort: number;

/** Where the built pages lie. */
export declare const pagesFolder: string;

/**
 * Serves `folder` on the loopback address at `port` (0: any free one), or at the first free port from the usual one
 * on if `port` is undefined. Gives the server and its address; throws a sentence if the port is taken.
 */
export declare function serve(
  folder: string,
  port: number | undefined,
): Promise<{ readonly server: Server; readonly address: string }>;

/** The N of `--port N`, or undefined if there is none; throws a sentence if it is no port. */
export declare function portFrom(args: readonly string[]): number | undefined;
