/**
 * The path of the Chromium-family browser named by THRONESIDE_CHROMIUM, else of one on the PATH, else undefined.
 * Throws a sentence if THRONESIDE_CHROMIUM names no program.
 */
export declare function findChromium(env?: Readonly<Record<string, string | undefined>>): string | undefined;
