import { dealRounds, dealWords } from "../../../engine/memory/index.ts";
import type { Lesson } from "../../app/lesson.ts";
import { useProgram } from "../../app/ProgramContext.tsx";
import { hrefOf } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { playItem } from "../next-time/playItem.ts";
import { ROUNDS_HERE } from "../next-time/roundsHere.ts";
import { framedAt } from "../round/framedRounds.ts";
import type { Due } from "./due.ts";

/** Deals for the minutes that are left and begins with the first round. Returns what was dealt, in a sentence. */
export function useFiveLeft(): (due: Pick<Due, "list">, minutesLeft: number) => Promise<string> {
  const program = useProgram();
  const studio = useStudio();
  return async ({ list }, minutesLeft) => {
    const lesson = await program.lesson.load();
    const { book, players, fiveLeft } = studio;
    const deal = dealRounds({ list, minutesLeft, rounds: ROUNDS_HERE, chance: Math.random });
    fiveLeft.begin(deal, {
      begin: ({ items: [first] }) => {
        if (first) void playItem(program, studio, first.item);
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
    });
    return dealWords(deal);
  };
}

/** What is being played is ended as by the player, and judged. */
async function takeStopped({ rounds }: Lesson): Promise<void> {
  for (const round of rounds) await round.stop();
}
