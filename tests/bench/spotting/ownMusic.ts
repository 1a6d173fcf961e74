/** Fills and drum parts such as a studio may have on its Shelf, made by chance, and takes of them. */
import { demonstrate, FILLS, type PlacedFill, STYLES } from "../../../engine/catalogue/index.ts";
import type { Hit, Voice } from "../../../engine/kit/index.ts";
import { grooveAround, USUAL_HAND } from "../../../engine/rounds/index.ts";
import {
  beatsPerBar,
  type Fill,
  FOUR_FOUR,
  fillBars,
  type Groove,
  metreName,
  type Note,
  type Part,
  type Passage,
  STRAIGHT,
} from "../../../engine/score/index.ts";
import { type Chance, fraction, toNumber } from "../../../engine/units/index.ts";

/** Strokes of one beat, in twelfths of it. */
const CELLS = [
  [0],
  [0, 6],
  [0, 3, 6, 9],
  [0, 6, 9],
  [0, 3, 6],
  [0, 9],
  [3, 6, 9],
  [0, 3, 9],
  [0, 4, 8],
  [6],
  [6, 9],
] as const;
const DRUMS: readonly Voice[] = ["snare", "high-tom", "mid-tom", "floor-tom", "kick"];
const LENGTHS = [1, 2, 2, 3, 4, 4, 4, 8];
/** Of two fills as long, at least so many strokes are in one and not in the other, as in the catalogue. */
const APART = 3;

function pick<Of>(from: readonly Of[], chance: Chance): Of {
  const one = from[Math.floor(chance() * from.length)];
  if (one === undefined) throw new Error("There is nothing to choose from.");
  return one;
}

const textsOf = ({ notes }: Fill): readonly string[] =>
  notes.map(({ position, voice }) => `${Math.round(12 * toNumber(position))} ${voice}`);

function isApart(one: Fill, other: Fill): boolean {
  if (one.beats !== other.beats) return true;
  const [own, others] = [textsOf(one), textsOf(other)];
  const only = (from: readonly string[], without: readonly string[]) =>
    from.filter((text) => !without.includes(text)).length;
  return only(own, others) + only(others, own) >= APART;
}

/** So many fills in four-four, each apart from all others and from the catalogue's. */
export function ownFills(count: number, chance: Chance): readonly Fill[] {
  const made: Fill[] = [];
  while (made.length < count) {
    const beats = pick(LENGTHS, chance);
    let drum = 0;
    const notes = Array.from({ length: beats }, (_, beat) =>
      (beat === 0 ? CELLS.slice(0, 9) : CELLS)[Math.floor(chance() * (beat === 0 ? 9 : CELLS.length))]?.map(
        (twelfth): Note => {
          if (chance() < 0.4) drum = Math.floor(chance() * DRUMS.length);
          return {
            position: fraction(12 * beat + twelfth, 12),
            voice: DRUMS[drum] ?? "snare",
            dynamic: "plain",
          };
        },
      ),
    ).flatMap((own) => own ?? []);
    if (notes[0]?.voice === "kick") continue;
    const fill: Fill = {
      id: `own/fill-${made.length}`,
      name: `Own fill ${made.length}`,
      level: "steady",
      metre: FOUR_FOUR,
      feel: STRAIGHT,
      tempoBpm: { low: 70, high: 110 },
      beats,
      voices: DRUMS,
      notes,
    };
    if ([...FILLS, ...made].every((other) => isApart(fill, other))) made.push(fill);
  }
  return made;
}

const PLAIN: readonly Groove[] = STYLES.flatMap(({ variants }) => variants).filter(
  ({ metre, feel }) => metreName(metre) === "4/4" && feel.kind === "straight",
);
export const IN_FOUR: readonly Fill[] = FILLS.filter(
  ({ metre, feel }) => metreName(metre) === "4/4" && feel.kind === "straight",
);

/** So many drum parts: a verse and a chorus, some with a bridge, most passages ended by a fill. */
export function ownParts(count: number, fills: readonly Fill[], chance: Chance): readonly Part[] {
  return Array.from({ length: count }, (_, number): Part => {
    const first = pick(PLAIN, chance);
    const alike = PLAIN.filter(
      ({ tempoBpm }) => tempoBpm.low <= first.tempoBpm.high && tempoBpm.high >= first.tempoBpm.low,
    );
    const low = first.tempoBpm.low;
    const tempoBpm = Math.round(low + chance() * (first.tempoBpm.high - low));
    const passage = (groove: Groove): Passage => {
      const bars = pick([4, 4, 8], chance);
      return chance() < 0.8 ? { groove, bars, fill: pick(fills, chance) } : { groove, bars };
    };
    const names = chance() < 0.5 ? ["Verse", "Chorus"] : ["Verse", "Chorus", "Bridge"];
    return {
      id: `own/part-${number}`,
      name: `Own part ${number}`,
      sections: names.map((name, at) => ({
        name,
        tempoBpm,
        times: 1,
        passages: [passage(at === 0 ? first : pick(alike, chance))],
      })),
    };
  });
}

const asHits = (strokes: ReturnType<typeof demonstrate>, after = 0): readonly Hit[] =>
  strokes.map((stroke) => ({ ...stroke, time: stroke.time + after, zone: "whole", pad: 0 }));

/** A fill in eight bars of a plain groove, at the end of the fourth or the eighth. */
export function takeOfFill(fill: Fill, lastBar: number, chance: Chance): readonly Hit[] {
  const groove = grooveAround(fill);
  const low = Math.max(fill.tempoBpm.low, groove.tempoBpm.low);
  const high = Math.min(fill.tempoBpm.high, groove.tempoBpm.high);
  const bar = lastBar + 1 - fillBars(fill);
  const tempoBpm = low + chance() * (high - low);
  return asHits(
    demonstrate(groove, {
      ...USUAL_HAND,
      tempoBpm,
      bars: 8,
      fills: [{ fill, bar, thenCrash: true }],
      chance,
    }),
  );
}

/** Passages one after another, as a person plays them; tempos by a share of the written one. */
export function takeOf(
  passages: readonly (Passage & { readonly tempoBpm: number })[],
  tempoShare: number,
  chance: Chance,
): readonly Hit[] {
  let after = 0;
  const hits = passages.flatMap(({ groove, bars, fill, tempoBpm: written }) => {
    const tempoBpm = written * tempoShare;
    const fills: PlacedFill[] = fill ? [{ fill, bar: bars + 1 - fillBars(fill) }] : [];
    const here = asHits(demonstrate(groove, { ...USUAL_HAND, tempoBpm, bars, fills, chance }), after);
    after += (bars * beatsPerBar(groove.metre) * 60) / tempoBpm;
    return here;
  });
  return [...hits].sort((a, b) => a.time - b.time);
}

export function passagesOf({ sections }: Part) {
  return sections.flatMap(({ tempoBpm, times, passages }) =>
    Array.from({ length: times }, () => passages.map((passage) => ({ ...passage, tempoBpm }))).flat(),
  );
}
