/** Takes in which something is wrong, as MIDI files. */
import { type MidiEvent, parseMidi, writeMidi } from "midi-file";

/** Keys of General MIDI. */
const KICK = 36;
const SNARE = 38;
const HIGH_TOM = 50;

/** The file with every second stroke of the kick taken out of it. */
export function withoutEverySecondKick(file: Buffer): Buffer {
  const { header, tracks } = parseMidi(file);
  let kicks = 0;
  const thinned = tracks.map((track) => {
    let silentTicks = 0;
    return track.flatMap((event): readonly MidiEvent[] => {
      if (event.type === "noteOn" && event.noteNumber === KICK) {
        kicks += 1;
        if (kicks % 2 === 0) {
          silentTicks += event.deltaTime;
          return [];
        }
      }
      const later = { ...event, deltaTime: event.deltaTime + silentTicks };
      silentTicks = 0;
      return [later];
    });
  });
  return Buffer.from(writeMidi({ header, tracks: thinned }));
}

/** The file with all its snare strokes on the high tom. */
export function snareOnTheTom(file: Buffer): Buffer {
  const { header, tracks } = parseMidi(file);
  const moved = tracks.map((track) =>
    track.map(
      (event): MidiEvent =>
        "noteNumber" in event && event.noteNumber === SNARE ? { ...event, noteNumber: HIGH_TOM } : event,
    ),
  );
  return Buffer.from(writeMidi({ header, tracks: moved }));
}
