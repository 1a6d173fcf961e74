/** Fills for the first year: quarters, eighths, a few sixteenths by alternate hands; one drum at a time, or two as one. */
export const FIRST_YEAR: readonly string[] = [
  `
  fill: last-beat-eighths
  name: One beat of eighths on the snare
  level: first-year
  metre: 4/4
  tempo: 60-120
  snare | .. .. .. xx |`,
  `
  fill: last-beat-sixteenths
  name: One beat of sixteenths on the snare
  level: first-year
  metre: 4/4
  tempo: 60-100
  snare | .... .... .... xxxx |
  hands | .... .... .... RLRL |`,
  `
  fill: two-quarters-snare
  name: Two quarters on the snare
  level: first-year
  metre: 4/4
  tempo: 60-140
  snare | . . x x |`,
  `
  fill: two-quarters-both-hands
  name: Two quarters, snare and floor tom as one
  level: first-year
  metre: 4/4
  tempo: 60-140
  snare     | . . x x |
  floor-tom | . . x x |`,
  `
  fill: two-eighths-and-a-quarter
  name: Two eighths on the snare and a quarter on the floor tom
  level: first-year
  metre: 4/4
  tempo: 60-130
  snare     | .. .. xx .. |
  floor-tom | .. .. .. x. |`,
  `
  fill: eighths-snare-floor
  name: Two beats of eighths, snare then floor tom
  level: first-year
  metre: 4/4
  tempo: 60-120
  snare     | .. .. xx .. |
  floor-tom | .. .. .. xx |`,
  `
  fill: eighths-one-each
  name: Two beats of eighths, one on each drum
  level: first-year
  metre: 4/4
  tempo: 60-110
  snare     | .. .. x. .. |
  high-tom  | .. .. .x .. |
  mid-tom   | .. .. .. x. |
  floor-tom | .. .. .. .x |`,
  `
  fill: bar-of-quarters
  name: A bar of quarters down the drums, kick under each
  level: first-year
  metre: 4/4
  tempo: 60-140
  snare     | x . . . |
  high-tom  | . x . . |
  mid-tom   | . . x . |
  floor-tom | . . . x |
  kick      | x x x x |`,
  `
  fill: bar-of-eighths
  name: A bar of eighths, two on each drum
  level: first-year
  metre: 4/4
  tempo: 60-120
  snare     | xx .. .. .. |
  high-tom  | .. xx .. .. |
  mid-tom   | .. .. xx .. |
  floor-tom | .. .. .. xx |`,
  `
  fill: sixteenths-snare-floor
  name: Two beats of sixteenths, snare then floor tom
  level: first-year
  metre: 4/4
  tempo: 60-90
  snare     | .... .... xxxx .... |
  hands     | .... .... RLRL .... |
  floor-tom | .... .... .... xxxx |
  hands     | .... .... .... RLRL |`,
  `
  fill: last-beat-eighths-in-three
  name: One beat of eighths on the snare, in three
  level: first-year
  metre: 3/4
  tempo: 70-140
  snare | .. .. xx |`,
  `
  fill: bar-of-quarters-in-three
  name: A bar of quarters down the toms, in three
  level: first-year
  metre: 3/4
  tempo: 70-150
  high-tom  | x . . |
  mid-tom   | . x . |
  floor-tom | . . x |`,
];
