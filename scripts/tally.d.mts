/** How many tests passed, failed and were skipped. */
export interface Tally {
  readonly passed: number;
  readonly failed: number;
  readonly skipped: number;
}

/** The tally of a Vitest report (its `json` reporter, parsed); a file that cannot be loaded is one failure. */
export declare function unitTally(report: unknown): Tally;

/** The tally of a Playwright report (its `json` reporter, parsed); a pass on a retry is a pass. */
export declare function browserTally(report: unknown): Tally;

export declare function sum(tallies: readonly Tally[]): Tally;

/** "12 passed, 0 failed", with the skipped ones only if there are any. */
export declare function tallyLine(tally: Tally): string;
