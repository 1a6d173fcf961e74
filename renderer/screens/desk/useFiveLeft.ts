import { type Deal, dealBadDay, dealRounds, dealWords } from "../../../engine/memory/index.ts";
import type { Lesson } from "../../app/lesson.ts";
import { useProgram } from "../../app/ProgramContext.tsx";
import { hrefOf } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { playItems } from "../next-time/playItems.ts";
import { ROUNDS_HERE } from "../next-time/roundsHere.ts";
import { framedAt } from "../round/framedAt.ts";
import type { Due } from "./due.ts";
import type { FiveLeftActs } from "./fiveLeft.ts";

/** What Five Left deals from. */
export type DealtFrom = Pick<Due, "list" | "goesWell" | "liking" | "ownNames">;

/** Deals for the minutes that are left and begins with the first round. Returns what was dealt, in a sentence. */
export function useFiveLeft(): (of: Deal["of"], due: DealtFrom, minutesLeft: number) => Promise<string> {
  const program = useProgram();
  const studio = useStudio();
  return async (of, due, minutesLeft) => {
    const lesson = await program.lesson.load();
    const { book, players, fiveLeft } = studio;
    const asked = { minutesLeft, rounds: ROUNDS_HERE, liking: due.liking, chance: Math.random };
    const deal =
      of === "due"
        ? dealRounds({ ...asked, list: due.list })
        : dealBadDay({ ...asked, goesWell: due.goesWell });
    const acts: FiveLeftActs = {
      begin: ({ items }) => {
        const nothingElse = deal.of === "goes-well";
        void playItems(program, studio, { items: items.map(({ item }) => item), nothingElse });
      },
      end: ({ round }) => {
        framedAt(lesson.framed, round)?.commands().stop?.();
        void takeStopped(lesson);
        void book.endRound(players.get().lane);
      },
      isTaking: () => lesson.rounds.some((each) => each.get().at.stage === "playing"),
      over: () => {
        window.location.hash = hrefOf("desk");
      },
    };
    fiveLeft.begin(deal, acts, due.ownNames);
    return dealWords(deal);
  };
}

/** What is being played is ended as by the player, and judged. */
async function takeStopped({ rounds }: Lesson): Promise<void> {
  for (const round of rounds) await round.stop();
}
