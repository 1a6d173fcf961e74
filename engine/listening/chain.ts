/**
 * Question: how likely are the beats of a take as a walk through written beats?
 * Method: the likeliest walk (Viterbi 1967): mostly from a beat to the one after it, now and then to a beginning, and here and
 * there something else is played over some beats while the walk goes on under it.
 */

/** Written beats in the order they may be played. */
export interface Chain {
  /** Which written row each beat is, by number; {@link ANYTHING} for one of which nothing is written. */
  readonly rows: Int32Array;
  /** The beat before each; −1 for one that nothing leads to. */
  readonly before: Int32Array;
  /** Log chance that a take begins there, and that a player goes there from anywhere. */
  readonly begins: Float64Array;
  readonly entered: Float64Array;
}

export const ANYTHING = -1;

/** The beats of a take, as likely as each row makes them; all as logs. */
export interface TakenBeats {
  readonly count: number;
  /** By row, then by beat: `byRow[row * count + beat]`. */
  readonly byRow: Float64Array;
  /** Whatever players play. */
  readonly anything: Float64Array;
  /** By length less one, then by beat: something else was played over so many beats, the last of them this one. */
  readonly else: readonly Float64Array[];
}

/** A player stays with what is written from beat to beat. Our choice. */
const GOES_ON = Math.log(0.98);

/** Log likelihood of the beats as the likeliest walk. */
export function walkLog({ rows, before, begins, entered }: Chain, beats: TakenBeats): number {
  const { count, byRow, anything } = beats;
  const states = rows.length;
  const longest = beats.else.length;
  const logs = Array.from({ length: longest + 1 }, () =>
    new Float64Array(states).fill(Number.NEGATIVE_INFINITY),
  );
  let best = Number.NEGATIVE_INFINITY;
  for (let beat = 0; beat < count; beat += 1) {
    const now = logs[beat % (longest + 1)] ?? new Float64Array(states);
    const last = logs[(beat + longest) % (longest + 1)] ?? now;
    let most = Number.NEGATIVE_INFINITY;
    for (let state = 0; state < states; state += 1) {
      let from = before[state] ?? -1;
      let log =
        beat === 0
          ? (begins[state] ?? 0)
          : Math.max(
              from < 0 ? Number.NEGATIVE_INFINITY : (last[from] ?? 0) + GOES_ON,
              best + (entered[state] ?? 0),
            );
      const row = rows[state] ?? ANYTHING;
      log += row === ANYTHING ? (anything[beat] ?? 0) : (byRow[row * count + beat] ?? 0);
      for (let length = 1; length <= longest && length <= beat && from >= 0; length += 1) {
        const then = logs[(beat + longest + 1 - length) % (longest + 1)]?.[from] ?? Number.NEGATIVE_INFINITY;
        const over = then + (beats.else[length - 1]?.[beat] ?? 0);
        if (over > log) log = over;
        from = before[from] ?? -1;
      }
      now[state] = log;
      if (log > most) most = log;
    }
    best = most;
  }
  return best;
}
