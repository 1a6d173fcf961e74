/** From what a round showed to a page on paper. */
import { itemName, type OwnNames } from "../../../engine/memory/index.ts";
import type { PlayerId, Shown } from "../../../engine/rounds/index.ts";
import type { Sheet, TallyPart } from "../../out/print/sheet.ts";
import { SHOWN_HEADINGS, saidTogether, standingOf } from "./standing.ts";

export interface RoundOnPaper {
  /** The round. */
  readonly title: string;
  /** In words. */
  readonly day: string;
  readonly shown: readonly Shown[];
  readonly nameOf: (by: PlayerId | null) => string;
  readonly ownNames?: OwnNames;
  /** What the round tells besides: its tables. */
  readonly tables: readonly TallyPart[];
}

/** Each thing as it stood last, by player; then the round's own tables. */
export function tallySheet({ title, day, shown, nameOf, ownNames, tables }: RoundOnPaper): Sheet {
  const players = [...new Set(shown.map(({ by }) => by))];
  const parts = players.flatMap((by): readonly TallyPart[] => {
    const standing = standingOf(shown.filter((each) => each.by === by));
    return SHOWN_HEADINGS.flatMap(([outcome, heading]): readonly TallyPart[] => {
      const lines = saidTogether(standing.filter((each) => each.outcome === outcome)).map(
        ({ words, items }) => ({
          key: items.join(" "),
          name: items.map((item) => itemName(item, ownNames).name).join(", "),
          remark: words,
        }),
      );
      const whose = players.length > 1 ? `${nameOf(by)}: ${heading.toLowerCase()}` : heading;
      return lines.length === 0 ? [] : [{ kind: "lines", heading: whose, lines }];
    });
  });
  const [only = null] = players;
  return {
    kind: "tally",
    of: title,
    nickname: players.length === 1 && only !== null ? nameOf(only) : "",
    day,
    under: "How each thing stood when it was asked last.",
    parts: [...parts, ...tables],
  };
}
