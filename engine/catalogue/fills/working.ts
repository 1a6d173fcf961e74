/** Fills for a working player: rudiments on the drums, groups over the bar line, fives, thirty-seconds. */
export const WORKING: readonly string[] = [
  `
  fill: last-beat-thirty-seconds
  name: One beat of thirty-seconds, snare and down the toms
  level: working
  metre: 4/4
  tempo: 60-100
  snare     | ........ ........ ........ xxxx.... |
  hands     | ........ ........ ........ RRLL.... |
  high-tom  | ........ ........ ........ ....xx.. |
  hands     | ........ ........ ........ ....RR.. |
  floor-tom | ........ ........ ........ ......xx |
  hands     | ........ ........ ........ ......LL |`,
  `
  fill: flam-accents
  name: Two beats of flam accents on the snare, as triplets
  level: working
  metre: 4/4
  tempo: 70-130
  snare | ... ... Fxx Fxx |
  hands | ... ... RLR LRL |`,
  `
  fill: six-stroke-rolls
  name: Two beats of six-stroke rolls, the accents on the toms
  level: working
  metre: 4/4
  tempo: 60-100
  snare     | ...... ...... .gggg. .gggg. |
  hands     | ...... ...... .LLRR. .LLRR. |
  high-tom  | ...... ...... .....X .....X |
  hands     | ...... ...... .....L .....L |
  floor-tom | ...... ...... X..... X..... |
  hands     | ...... ...... R..... R..... |`,
  `
  fill: fives-with-kick
  name: Two beats of five strokes, snare, tom and kick
  level: working
  metre: 4/4
  tempo: 60-100
  snare     | ..... ..... xx... xx... |
  high-tom  | ..... ..... ..xx. ..... |
  floor-tom | ..... ..... ..... ..xx. |
  kick     | ..... ..... ....x ....x |`,
  `
  fill: thirty-second-pairs-in-threes
  name: Three beats of two thirty-seconds and two sixteenths, once on each drum
  level: working
  metre: 4/4
  tempo: 60-95
  snare     | ........ xxx.x... ........ ........ |
  high-tom  | ........ ......xx x.x..... ........ |
  mid-tom   | ........ ........ ....xxx. x....... |
  floor-tom | ........ ........ ........ ..xxx.x. |`,
  `
  fill: paradiddles-floor-snare
  name: A bar of paradiddles, right hand on the floor tom, left on the snare
  level: working
  metre: 4/4
  tempo: 70-130
  snare     | .g.. X.gg .g.. X.gg |
  hands     | .L.. L.LL .L.. L.LL |
  floor-tom | X.xx .x.. X.xx .x.. |
  hands     | R.RR .R.. R.RR .R.. |`,
  `
  fill: accents-moved-to-the-toms
  name: A bar of ghosted sixteenths, the accents on the toms
  level: working
  metre: 4/4
  tempo: 70-120
  snare     | .gg. gg.g gg.g .ggg |
  high-tom  | X..X .... .... .... |
  mid-tom   | .... ..X. .... .... |
  floor-tom | .... .... ..X. X... |`,
  `
  fill: ratamacues
  name: A bar of single ratamacues on the snare
  level: working
  metre: 4/4
  tempo: 70-130
  snare | dxx X.. dxx X.. |
  hands | RLR L.. LRL R.. |`,
  `
  fill: fours-over-swung-triplets
  name: A bar of triplets in fours, three drums and the kick, swung
  level: working
  metre: 4/4
  feel: swung 2 triplets
  tempo: 100-180
  snare     | x.. .x. ..x ... |
  high-tom  | .x. ..x ... x.. |
  floor-tom | ..x ... x.. .x. |
  kick      | ... x.. .x. ..x |`,
  `
  fill: swung-flams-and-kick
  name: Two beats of triplets, flam, tom, kick, swung
  level: working
  metre: 4/4
  feel: swung 2 triplets
  tempo: 100-170
  snare    | ... ... F.. F.. |
  high-tom | ... ... .x. ... |
  mid-tom  | ... ... ... .x. |
  kick     | ... ... ..x ..x |`,
  `
  fill: sixteenths-with-kick-in-twelve-eight
  name: A bar of sixteenths in twelve-eight, snare, tom and kick in pairs
  level: working
  metre: 12/8
  tempo: 45-75
  snare     | xx.... xx.... xx.... xx.... |
  high-tom  | ..xx.. ...... ..xx.. ...... |
  floor-tom | ...... ..xx.. ...... ..xx.. |
  kick      | ....xx ....xx ....xx ....xx |`,
  `
  fill: two-bars-in-six-eight
  name: Two bars in six-eight, drags answered by sixteenths
  level: working
  metre: 6/8
  tempo: 45-75
  snare     | d.x.x. d.x.x. | xxx... ...... |
  high-tom  | ...... ...... | ...xxx ...... |
  floor-tom | ...... ...... | ...... xxxxxx |`,
  `
  fill: bar-of-sixteenths-in-three
  name: A bar of sixteenths in three, drum, drum, kick
  level: working
  metre: 3/4
  tempo: 70-125
  snare     | X..X ..X. .X.. |
  floor-tom | .x.. x..x ..x. |
  kick      | ..x. .x.. x..x |`,
  `
  fill: threes-over-the-bar
  name: Two bars of sixteenths in threes over the bar line, snare, floor tom, kick
  level: working
  metre: 4/4
  tempo: 70-125
  snare     | X..X ..X. .X.. X..X | ..X. .X.. X..X ..X. |
  floor-tom | .x.. x..x ..x. .x.. | x..x ..x. .x.. x..x |
  kick      | ..x. .x.. x..x ..x. | .x.. x..x ..x. .x.. |`,
];
