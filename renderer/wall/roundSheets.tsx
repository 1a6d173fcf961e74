/** What rounds draw on the wall besides words: one part a round, fetched when it is first shown. */
import { lazy, Suspense } from "react";
import type { Seconds } from "../../engine/units/index.ts";
import type { RoundSheet } from "./wallPage.ts";

const BackTurnedSheet = lazy(async () => ({
  default: (await import("../screens/back-turned/WallSheet.tsx")).WallSheet,
}));

const CardTableSheet = lazy(async () => ({
  default: (await import("../screens/card-table/WallSheet.tsx")).WallSheet,
}));

const WallChartSheet = lazy(async () => ({
  default: (await import("../screens/wall-chart/WallSheet.tsx")).WallSheet,
}));

const TradingSheet = lazy(async () => ({
  default: (await import("../screens/trading/WallSheet.tsx")).WallSheet,
}));

export function RoundSheetOnWall({
  sheet,
  bookNow,
}: {
  readonly sheet: RoundSheet;
  /** The session clock of the book window. */
  readonly bookNow: () => Seconds;
}) {
  return <Suspense fallback={null}>{drawn(sheet, bookNow)}</Suspense>;
}

function drawn(sheet: RoundSheet, bookNow: () => Seconds) {
  switch (sheet.round) {
    case "back-turned":
      return <BackTurnedSheet sheet={sheet} />;
    case "card-table":
      return <CardTableSheet sheet={sheet} />;
    case "wall-chart":
      return <WallChartSheet sheet={sheet} />;
    case "trading":
      return <TradingSheet sheet={sheet} now={bookNow} />;
  }
}
