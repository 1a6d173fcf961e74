/** Fills for the second year: sixteenths and triplets round the drums, the kick among the hands, the first flams. */
export const SECOND_YEAR: readonly string[] = [
  `
  fill: two-sixteenths-into-one
  name: Two sixteenths on the last off-beat, over the snare on four
  level: second-year
  metre: 4/4
  tempo: 70-120
  snare    | .... .... .... x... |
  high-tom | .... .... .... ..xx |`,
  `
  fill: sixteenths-down-the-toms
  name: Two beats of sixteenths down the toms
  level: second-year
  metre: 4/4
  tempo: 60-110
  high-tom  | .... .... xx.. .... |
  mid-tom   | .... .... ..xx .... |
  floor-tom | .... .... .... xxxx |`,
  `
  fill: bar-of-sixteenths
  name: A bar of sixteenths, four on each drum
  level: second-year
  metre: 4/4
  tempo: 60-110
  snare     | xxxx .... .... .... |
  high-tom  | .... xxxx .... .... |
  mid-tom   | .... .... xxxx .... |
  floor-tom | .... .... .... xxxx |`,
  `
  fill: eighth-and-two-sixteenths
  name: Two beats of an eighth and two sixteenths, snare then floor tom
  level: second-year
  metre: 4/4
  tempo: 60-120
  snare     | .... .... x.xx .... |
  floor-tom | .... .... .... x.xx |`,
  `
  fill: two-sixteenths-and-an-eighth
  name: A bar of two sixteenths and an eighth, once on each drum
  level: second-year
  metre: 4/4
  tempo: 60-120
  snare     | xxx. .... .... .... |
  high-tom  | .... xxx. .... .... |
  mid-tom   | .... .... xxx. .... |
  floor-tom | .... .... .... xxx. |`,
  `
  fill: hands-then-kick
  name: Two beats of sixteenths, two by hand and two by kick
  level: second-year
  metre: 4/4
  tempo: 60-95
  snare    | .... .... xx.. .... |
  high-tom | .... .... .... xx.. |
  kick     | .... .... ..xx ..xx |`,
  `
  fill: three-beats-of-eighths
  name: Three beats of eighths, tom and snare by turns
  level: second-year
  metre: 4/4
  tempo: 70-140
  snare     | .. .x .x .x |
  floor-tom | .. x. x. x. |`,
  `
  fill: flams-on-three-and-four
  name: Two quarters, each a flam on the snare
  level: second-year
  metre: 4/4
  tempo: 60-130
  snare | . . f f |`,
  `
  fill: triplets-snare-floor
  name: Two beats of triplets, snare then floor tom
  level: second-year
  metre: 4/4
  tempo: 60-120
  snare     | ... ... xxx ... |
  floor-tom | ... ... ... xxx |`,
  `
  fill: bar-of-triplets
  name: A bar of triplets, three on each drum
  level: second-year
  metre: 4/4
  tempo: 60-120
  snare     | xxx ... ... ... |
  high-tom  | ... xxx ... ... |
  mid-tom   | ... ... xxx ... |
  floor-tom | ... ... ... xxx |`,
  `
  fill: sixteenths-in-three
  name: Two beats of sixteenths, snare then floor tom, in three
  level: second-year
  metre: 3/4
  tempo: 60-110
  snare     | .... xxxx .... |
  floor-tom | .... .... xxxx |`,
  `
  fill: last-beat-in-twelve-eight
  name: One beat of eighths down the toms, in twelve-eight
  level: second-year
  metre: 12/8
  tempo: 45-90
  high-tom  | ... ... ... x.. |
  mid-tom   | ... ... ... .x. |
  floor-tom | ... ... ... ..x |`,
  `
  fill: bar-in-six-eight
  name: A bar of eighths, snare then floor tom, in six-eight
  level: second-year
  metre: 6/8
  tempo: 40-90
  snare     | xxx ... |
  floor-tom | ... xxx |`,
];
