/**
 * Question: how badly do strokes fit what is written if the player is some beats off as a whole?
 *
 * Every hit without a written stroke of its voice near it counts one, and so does every written stroke without a hit.
 * Counted in cells of a beat, for as many displacements as are asked for; linear in hits and notes for each.
 */
import type { Voice } from "../kit/index.ts";
import type { Seconds } from "../units/index.ts";
import { grouped } from "./grouped.ts";
import type { Sounded } from "./slot.ts";

/** Nearer than this a hit answers a written stroke of its voice: the price of one gap inside a family (`WITHIN_FAMILY`). */
const REACH_SECONDS: Seconds = 0.06;
/** A cell begins this share of itself before its beat, so that strokes ahead of a beat count to it. Our choice. */
const CELL_AHEAD = 1 / 8;

/** Hits and notes in cells of time; all on the target's clock, the player's drift taken out. */
export class Misfit {
  readonly cellSeconds: Seconds;
  /** Number of cells, and the beginning of the first. */
  readonly cells: number;
  readonly from: Seconds;
  /** Hits in each cell. */
  readonly hits: Float64Array;
  readonly #byVoice: readonly { readonly notes: readonly Seconds[]; readonly hits: readonly Seconds[] }[];

  /** @param hits in order of time, at least one. */
  constructor(hits: readonly Sounded[], notes: readonly Sounded[], cellSeconds: Seconds) {
    this.cellSeconds = cellSeconds;
    const first = hits[0]?.time ?? 0;
    const last = hits[hits.length - 1]?.time ?? 0;
    this.from = (Math.floor(first / cellSeconds + CELL_AHEAD) - CELL_AHEAD) * cellSeconds;
    this.cells = Math.floor((last - this.from) / cellSeconds) + 1;
    this.hits = new Float64Array(this.cells);
    for (const { time } of hits) this.#count(this.hits, time);
    const heard = grouped(hits, ({ voice }) => voice);
    const written = grouped(notes, ({ voice }) => voice);
    const voices = new Set<Voice>([...heard.keys(), ...written.keys()]);
    this.#byVoice = [...voices].map((voice) => ({
      notes: (written.get(voice) ?? []).map(({ time }) => time),
      hits: (heard.get(voice) ?? []).map(({ time }) => time).sort((a, b) => a - b),
    }));
  }

  /** Hits and written strokes without the other in each cell, if the player is `shift` seconds behind the page. */
  at(shift: Seconds): Float64Array {
    const cells = new Float64Array(this.cells);
    for (const { notes, hits } of this.#byVoice) {
      let near = 0;
      for (const hit of hits) {
        while ((notes[near] ?? Number.POSITIVE_INFINITY) + shift < hit - REACH_SECONDS) near += 1;
        if (!((notes[near] ?? Number.POSITIVE_INFINITY) + shift <= hit + REACH_SECONDS))
          this.#count(cells, hit);
      }
      near = 0;
      for (const note of notes) {
        const time = note + shift;
        while ((hits[near] ?? Number.POSITIVE_INFINITY) < time - REACH_SECONDS) near += 1;
        if (!((hits[near] ?? Number.POSITIVE_INFINITY) <= time + REACH_SECONDS)) this.#count(cells, time);
      }
    }
    return cells;
  }

  #count(cells: Float64Array, time: Seconds): void {
    const cell = Math.floor((time - this.from) / this.cellSeconds);
    if (cell >= 0 && cell < cells.length) cells[cell] = (cells[cell] ?? 0) + 1;
  }
}
