import type { Groove } from "../score/index.ts";
import { readStyle, type Style } from "./style.ts";
import { bolero } from "./styles/bolero.ts";
import { bossaNova } from "./styles/bossaNova.ts";
import { halfTime } from "./styles/halfTime.ts";
import { halfTimeShuffle } from "./styles/halfTimeShuffle.ts";
import { jazzWaltz } from "./styles/jazzWaltz.ts";
import { merengue } from "./styles/merengue.ts";
import { oneDrop } from "./styles/oneDrop.ts";
import { rockEighths } from "./styles/rockEighths.ts";
import { rockSixteenths } from "./styles/rockSixteenths.ts";
import { samba } from "./styles/samba.ts";
import { shuffle } from "./styles/shuffle.ts";
import { swing } from "./styles/swing.ts";

/** The studio's stock of styles, in the order they are listed on screen. */
export const STYLES: readonly Style[] = [
  rockEighths,
  rockSixteenths,
  halfTime,
  shuffle,
  halfTimeShuffle,
  swing,
  jazzWaltz,
  bossaNova,
  samba,
  merengue,
  bolero,
  oneDrop,
].map(readStyle);

/** The style with this id, or `undefined`. */
export function styleById(id: string): Style | undefined {
  return STYLES.find((style) => style.id === id);
}

/** The variant with this id; a style's own id gives its first variant. `undefined` where there is none. */
export function grooveById(id: string): Groove | undefined {
  return STYLES.flatMap((style) => style.variants).find((groove) => groove.id === id);
}
