/** Fills for a steady player: groups across the beat, accents over ghosts, flams and drags, swung time. */
export const STEADY: readonly string[] = [
  `
  fill: sixteenth-triplets-down-the-toms
  name: One beat of sixteenth triplets down the toms
  level: steady
  metre: 4/4
  tempo: 60-100
  high-tom  | ...... ...... ...... xx.... |
  mid-tom   | ...... ...... ...... ..xx.. |
  floor-tom | ...... ...... ...... ....xx |`,
  `
  fill: flam-and-two-sixteenths
  name: Two beats of a flam and two sixteenths, snare then floor tom
  level: steady
  metre: 4/4
  tempo: 60-120
  snare     | .... .... f.xx .... |
  floor-tom | .... .... .... f.xx |`,
  `
  fill: drags-on-three-and-four
  name: Drags on three and four, the floor tom answering on the off-beats
  level: steady
  metre: 4/4
  tempo: 60-120
  snare     | .. .. d. d. |
  floor-tom | .. .. .x .x |`,
  `
  fill: kick-after-each-hand
  name: Two beats of sixteenths, the kick after each hand
  level: steady
  metre: 4/4
  tempo: 60-115
  high-tom  | .... .... x... .... |
  snare     | .... .... ..x. ..x. |
  floor-tom | .... .... .... x... |
  kick      | .... .... .x.x .x.x |`,
  `
  fill: triplets-hand-hand-kick
  name: Two beats of triplets, snare, floor tom, kick
  level: steady
  metre: 4/4
  tempo: 70-160
  snare     | ... ... x.. x.. |
  floor-tom | ... ... .x. .x. |
  kick      | ... ... ..x ..x |`,
  `
  fill: threes-round-the-drums
  name: Three beats of sixteenths in threes, once on each drum
  level: steady
  metre: 4/4
  tempo: 60-120
  snare     | .... Xxx. .... .... |
  high-tom  | .... ...X xx.. .... |
  mid-tom   | .... .... ..Xx x... |
  floor-tom | .... .... .... .Xxx |`,
  `
  fill: accents-in-threes
  name: A bar of ghosted sixteenths on the snare, every third accented
  level: steady
  metre: 4/4
  tempo: 65-120
  snare | XggX ggXg gXgg XggX |`,
  `
  fill: off-beat-crashes
  name: Two beats, snare on the beat, crash and kick on the off-beat
  level: steady
  metre: 4/4
  tempo: 80-160
  crash-left | .. .. .X .X |
  snare      | .. .. x. x. |
  kick       | .. .. .x .x |`,
  `
  fill: swung-long-short
  name: Two beats of long and short down the drums, swung
  level: steady
  metre: 4/4
  feel: swung 2 eighths
  tempo: 80-180
  snare     | .. .. x. .. |
  high-tom  | .. .. .x .. |
  mid-tom   | .. .. .. x. |
  floor-tom | .. .. .. .x |`,
  `
  fill: swung-triplet-answer
  name: Three beats of triplets and rests, snare and toms, swung
  level: steady
  metre: 4/4
  feel: swung 2 triplets
  tempo: 100-200
  snare     | ... Xxx ... X.. |
  high-tom  | ... ... x.. ... |
  floor-tom | ... ... ..x ..x |`,
  `
  fill: flam-in-three
  name: Two beats, a flam and four sixteenths down the toms, in three
  level: steady
  metre: 3/4
  tempo: 70-120
  snare     | .... f... .... |
  high-tom  | .... .... xx.. |
  floor-tom | .... .... ..xx |`,
  `
  fill: two-beats-in-twelve-eight
  name: Two beats of eighths with sixteenths between, in twelve-eight
  level: steady
  metre: 12/8
  tempo: 45-80
  snare     | ...... ...... x.xxx. ...... |
  floor-tom | ...... ...... ...... x.xxx. |`,
  `
  fill: bar-in-six-eight-with-kick
  name: A bar in six-eight, two hands and the kick, then sixteenths
  level: steady
  metre: 6/8
  tempo: 40-80
  snare     | x.x... x.xx.. |
  floor-tom | ...... ....xx |
  kick      | ....x. ...... |`,
  `
  fill: five-beats-of-eighths
  name: Five beats of eighths, from the snare down the drums and back
  level: steady
  metre: 4/4
  tempo: 80-150
  snare     | .. .. .. xx | .. .. .. xx |
  high-tom  | .. .. .. .. | xx .. .. .. |
  mid-tom   | .. .. .. .. | .. xx .. .. |
  floor-tom | .. .. .. .. | .. .. xx .. |`,
  `
  fill: two-bars-building
  name: Two bars on the snare, from quarters to sixteenths
  level: steady
  metre: 4/4
  tempo: 70-130
  snare | x... x... x... x... | x.x. x.x. xxxx XXXX |
  kick  | x... x... x... x... | x... x... x... x... |`,
];
