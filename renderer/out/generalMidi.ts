import { parseKitMap } from "../../engine/kit/index.ts";
import generalMidi1 from "../../kit-maps/general-midi-1.json";

/** Keys of files that leave the program: what every program that reads MIDI files knows. */
export const GENERAL_MIDI = parseKitMap(generalMidi1, "general-midi-1.json");
