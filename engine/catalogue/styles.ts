import type { Groove } from "../score/index.ts";
import type { Family } from "./family.ts";
import { readStyle, type Style } from "./style.ts";
import { afrobeat } from "./styles/afrobeat.ts";
import { baiao } from "./styles/baiao.ts";
import { beguine } from "./styles/beguine.ts";
import { bembe } from "./styles/bembe.ts";
import { blastBeat } from "./styles/blastBeat.ts";
import { bluesShuffle } from "./styles/bluesShuffle.ts";
import { bolero } from "./styles/bolero.ts";
import { boomBap } from "./styles/boomBap.ts";
import { bossaNova } from "./styles/bossaNova.ts";
import { breakbeat } from "./styles/breakbeat.ts";
import { calypso } from "./styles/calypso.ts";
import { chaCha } from "./styles/chaCha.ts";
import { chacarera } from "./styles/chacarera.ts";
import { cumbia } from "./styles/cumbia.ts";
import { dBeat } from "./styles/dBeat.ts";
import { disco } from "./styles/disco.ts";
import { doubleTimePunk } from "./styles/doubleTimePunk.ts";
import { fiveFour } from "./styles/fiveFour.ts";
import { fourOnTheFloor } from "./styles/fourOnTheFloor.ts";
import { fourOnTheSnare } from "./styles/fourOnTheSnare.ts";
import { funkSixteenths } from "./styles/funkSixteenths.ts";
import { halfTime } from "./styles/halfTime.ts";
import { halfTimeShuffle } from "./styles/halfTimeShuffle.ts";
import { jazzWaltz } from "./styles/jazzWaltz.ts";
import { linearSixteenths } from "./styles/linearSixteenths.ts";
import { mambo } from "./styles/mambo.ts";
import { maracatu } from "./styles/maracatu.ts";
import { march } from "./styles/march.ts";
import { merengue } from "./styles/merengue.ts";
import { oneDrop } from "./styles/oneDrop.ts";
import { partidoAlto } from "./styles/partidoAlto.ts";
import { polka } from "./styles/polka.ts";
import { reggaeton } from "./styles/reggaeton.ts";
import { rockEighths } from "./styles/rockEighths.ts";
import { rockers } from "./styles/rockers.ts";
import { rockOffBeat } from "./styles/rockOffBeat.ts";
import { rockQuarters } from "./styles/rockQuarters.ts";
import { rockSixteenths } from "./styles/rockSixteenths.ts";
import { rumba } from "./styles/rumba.ts";
import { samba } from "./styles/samba.ts";
import { sambaReggae } from "./styles/sambaReggae.ts";
import { secondLine } from "./styles/secondLine.ts";
import { sevenEight } from "./styles/sevenEight.ts";
import { shuffle } from "./styles/shuffle.ts";
import { sixEightBallad } from "./styles/sixEightBallad.ts";
import { ska } from "./styles/ska.ts";
import { soca } from "./styles/soca.ts";
import { songo } from "./styles/songo.ts";
import { steppers } from "./styles/steppers.ts";
import { swing } from "./styles/swing.ts";
import { swingInFive } from "./styles/swingInFive.ts";
import { tango } from "./styles/tango.ts";
import { trainBeat } from "./styles/trainBeat.ts";
import { trapHalfTime } from "./styles/trapHalfTime.ts";
import { twelveEightBlues } from "./styles/twelveEightBlues.ts";
import { twoBeat } from "./styles/twoBeat.ts";
import { twoStep } from "./styles/twoStep.ts";
import { waltz } from "./styles/waltz.ts";

/** The studio's stock of styles, family by family, in the order they are listed on screen. */
export const STYLES: readonly Style[] = [
  rockEighths,
  rockQuarters,
  rockOffBeat,
  rockSixteenths,
  halfTime,
  doubleTimePunk,
  dBeat,
  blastBeat,
  fourOnTheSnare,
  funkSixteenths,
  linearSixteenths,
  afrobeat,
  boomBap,
  trapHalfTime,
  breakbeat,
  twoStep,
  disco,
  fourOnTheFloor,
  shuffle,
  bluesShuffle,
  halfTimeShuffle,
  twelveEightBlues,
  sixEightBallad,
  swing,
  jazzWaltz,
  swingInFive,
  fiveFour,
  sevenEight,
  trainBeat,
  twoBeat,
  polka,
  march,
  waltz,
  secondLine,
  bossaNova,
  samba,
  partidoAlto,
  baiao,
  maracatu,
  sambaReggae,
  tango,
  chacarera,
  bembe,
  rumba,
  mambo,
  chaCha,
  songo,
  bolero,
  beguine,
  merengue,
  cumbia,
  reggaeton,
  calypso,
  soca,
  ska,
  rockers,
  oneDrop,
  steppers,
].map(readStyle);

/** The styles of a family, in their order. */
export function stylesOf(family: Family): readonly Style[] {
  return STYLES.filter((style) => style.family === family);
}

/** The style with this id, or `undefined`. */
export function styleById(id: string): Style | undefined {
  return STYLES.find((style) => style.id === id);
}

/** The variant with this id; a style's own id gives its first variant. `undefined` where there is none. */
export function grooveById(id: string): Groove | undefined {
  return STYLES.flatMap((style) => style.variants).find((groove) => groove.id === id);
}
