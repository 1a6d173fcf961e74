/**
 * Questions about styles of the catalogue that people play: takes whose style the dataset names and the catalogue has.
 */
import { STYLES } from "../../engine/catalogue/index.ts";
import { catalogueStock } from "../../engine/listening/index.ts";
import type { Background } from "../../engine/listening/learning.ts";
import type { Chance } from "../../engine/units/index.ts";
import { question } from "./namingQuestion.ts";
import type { Question } from "./regression.ts";
import type { Take } from "./takes.ts";

/** By the dataset's name of the style, the styles of the catalogue that may be meant. */
const MEANT: Readonly<Record<string, readonly string[]>> = {
  afrobeat: ["afrobeat"],
  "afrocuban/bembe": ["bembe"],
  "afrocuban/calypso": ["calypso"],
  "afrocuban/rhumba": ["rumba"],
  "blues/shuffle": ["shuffle", "blues-shuffle"],
  "dance/breakbeat": ["breakbeat"],
  "dance/disco": ["disco", "four-on-the-floor"],
  jazz: ["swing", "jazz-waltz"],
  "jazz/fast": ["swing"],
  "jazz/linear": ["linear-sixteenths"],
  "jazz/march": ["march"],
  "jazz/mediumfast": ["swing"],
  "jazz/swing": ["swing"],
  "latin/brazilian-baiao": ["baiao"],
  "latin/brazilian-bossa": ["bossa-nova"],
  "latin/brazilian-maracatu": ["maracatu"],
  "latin/brazilian-samba": ["samba", "partido-alto"],
  "latin/brazilian-sambareggae": ["samba-reggae"],
  "latin/brazilian-songo": ["songo"],
  "latin/chacarera": ["chacarera"],
  "latin/dominican-merengue": ["merengue"],
  "latin/merengue": ["merengue"],
  "latin/reggaeton": ["reggaeton"],
  "latin/samba": ["samba", "partido-alto"],
  "neworleans/chacha": ["cha-cha"],
  "neworleans/secondline": ["second-line"],
  reggae: ["one-drop", "rockers", "steppers"],
  "reggae/slow": ["one-drop", "rockers", "steppers"],
  "rock/halftime": ["half-time"],
  "rock/shuffle": ["shuffle", "blues-shuffle"],
};

const WINDOWS_A_TAKE = 4;

/** Windows of these takes, where their style is one of the catalogue's; of five two without it among the known. */
export function peopleQuestions(
  takes: readonly Take[],
  general: Background,
  unknownShare: number,
  chance: Chance,
): readonly Question[] {
  const stock = catalogueStock(STYLES, general);
  return takes.flatMap((take) => {
    const meant = MEANT[take.style];
    if (!meant) return [];
    return Array.from({ length: WINDOWS_A_TAKE }).flatMap(() => {
      const bars = chance() < 0.5 ? 8 : 4;
      const seconds = (bars * take.beatsInBar * 60) / take.tempoBpm;
      const from = Math.max(0, (take.hits.at(-1)?.time ?? 0) - seconds) * chance();
      const hits = take.hits.filter(({ time }) => time >= from && time < from + seconds);
      const among =
        chance() < unknownShare
          ? { ...stock, grooves: stock.grooves.filter(({ id }) => !meant.includes(id)) }
          : stock;
      return question(hits, among, meant, "people");
    });
  });
}
