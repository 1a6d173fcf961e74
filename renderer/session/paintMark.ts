import type { Seconds } from "../../engine/units/index.ts";

/** Name of the measure from a strike's own time stamp to the paint that shows it. */
export const STRIKE_PAINTED = "strike-painted";

/**
 * Measures, once the frame that shows a strike has been painted, how long that took. Call it in the layout
 * effect that follows the change. Only the latest measure is kept; an observer sees them all.
 */
export function measureStrikePaint(strikeTime: Seconds): void {
  requestAnimationFrame(() => {
    // A message posted in a frame is delivered after that frame was painted.
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      performance.clearMeasures(STRIKE_PAINTED);
      performance.measure(STRIKE_PAINTED, { start: strikeTime * 1000, end: performance.now() });
    };
    port2.postMessage(null);
  });
}
