import { lazy, Suspense } from "react";
import type { Sheet } from "./sheet.ts";

// Staff and pages come with the first page that is printed.
const PrintView = lazy(async () => ({ default: (await import("./PrintView.tsx")).PrintView }));

/** The page that is about to be printed, over everything else; `null` where there is none. */
export function PrintPages({
  sheet,
  onClose,
}: {
  readonly sheet: Sheet | null;
  readonly onClose: () => void;
}) {
  if (sheet === null) return null;
  return (
    <Suspense fallback={<p role="status">The page is being set.</p>}>
      <PrintView sheet={sheet} onClose={onClose} />
    </Suspense>
  );
}
