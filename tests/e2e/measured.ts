/**
 * For `test.describe.configure` of what is measured or counted in real time, on a sound device or in frames: a machine that stalls adds to
 * such a measurement and never takes away, so the best of three is the program's. Nothing else is tried again.
 */
export const MEASURED = { retries: 2 } as const;

/** For a group of tests in a file whose others measure nothing: it waits until it is alone (playwright.config.ts). */
export const IN_REAL_TIME = { tag: "@real-time" } as const;

/**
 * For what mostly waits: it is played in real time, but each stroke has the stamp of its moment, and nothing is compared with how
 * soon the machine is. Two of these may stand side by side (playwright.config.ts), in a file that measures, too.
 */
export const WAITING = { tag: "@waiting" } as const;
