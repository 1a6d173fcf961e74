export { BarRing, type BarRingProps, type PlayedMark } from "./BarRing.tsx";
export * from "./figures.ts";
export { LeanAlong, type LeanAlongProps } from "./LeanAlong.tsx";
export { LeanByBeat, type LeanByBeatProps } from "./LeanByBeat.tsx";
export { type RingSpan, ringSpan } from "./ringGeometry.ts";
export { VoiceTable, type VoiceTableProps } from "./VoiceTable.tsx";
