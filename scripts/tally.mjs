/** How many tests passed, failed and were skipped, read from the reports that the two test runners write. */

/** The tally of a Vitest report (its `json` reporter, parsed). */
export function unitTally(report) {
  // A file that cannot even be loaded has no tests to count; it counts as one that failed.
  const broken = report.testResults.filter(
    (file) => file.status === "failed" && file.assertionResults.every((test) => test.status !== "failed"),
  );
  return {
    passed: report.numPassedTests,
    failed: report.numFailedTests + broken.length,
    skipped: report.numPendingTests + report.numTodoTests,
  };
}

/**
 * The tally of a Playwright report (its `json` reporter, parsed). Only what is measured in real time is tried again
 * (tests/e2e/measured.ts): where it held once, it has passed.
 */
export function browserTally(report) {
  const { expected, unexpected, flaky, skipped } = report.stats;
  return { passed: expected + flaky, failed: unexpected + report.errors.length, skipped };
}

export function sum(tallies) {
  return tallies.reduce(
    (total, each) => ({
      passed: total.passed + each.passed,
      failed: total.failed + each.failed,
      skipped: total.skipped + each.skipped,
    }),
    { passed: 0, failed: 0, skipped: 0 },
  );
}

/** "12 passed, 0 failed", with the skipped ones only if there are any. */
export function tallyLine({ passed, failed, skipped }) {
  return `${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ""}`;
}
