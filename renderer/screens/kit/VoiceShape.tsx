import { familyOf, type Voice } from "../../../engine/kit/index.ts";
import type { Velocity } from "../../../engine/units/index.ts";

/** How much of a shape a strike fills: a ghost note still shows. */
export function filledShare(velocity: Velocity): number {
  return 0.35 + 0.65 * velocity;
}

/** The drawing's size: put the shapes into a view box from 0 0 of this width and height. */
export const SHAPE_BOX = { width: 48, height: 40 } as const;

/** Drums are round, cymbals flat, what the foot plays is a board. */
export function VoiceShape({
  voice,
  className,
  scale,
}: {
  readonly voice: Voice;
  readonly className: string | undefined;
  readonly scale: number;
}) {
  const family = familyOf(voice);
  if (voice === "bell")
    return <ellipse className={className} cx={24} cy={20} rx={10 * scale} ry={6 * scale} />;
  if (family === "cymbals" || family === "hats") {
    return <ellipse className={className} cx={24} cy={20} rx={21 * scale} ry={8 * scale} />;
  }
  if (family === "pedal") {
    return (
      <rect
        className={className}
        x={24 - 7 * scale}
        y={20 - 16 * scale}
        width={14 * scale}
        height={32 * scale}
        rx={2}
      />
    );
  }
  if (voice === "cross-stick") {
    return (
      <g>
        <circle className={className} cx={24} cy={20} r={15 * scale} />
        <path className={className} d="M6 29 42 11" />
      </g>
    );
  }
  return <circle className={className} cx={24} cy={20} r={(family === "kick" ? 18 : 15) * scale} />;
}
