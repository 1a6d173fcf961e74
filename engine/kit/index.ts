export * from "./hit.ts";
export * from "./kitEar.ts";
export * from "./kitMap.ts";
export * from "./learn.ts";
export * from "./midiMessage.ts";
export * from "./retrigger.ts";
export * from "./voice.ts";
