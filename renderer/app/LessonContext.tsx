import { createContext, type ReactNode, use, useMemo } from "react";
import { useWatched } from "../session/store.ts";
import type { Lesson } from "./lesson.ts";
import { useProgram } from "./ProgramContext.tsx";

const Context = createContext<Lesson | null>(null);

/** Waits for the lesson, and hands it to what is inside; its round is that of the kit that is listened to. */
export function WithLesson({ children }: { readonly children: ReactNode }) {
  const program = useProgram();
  const lesson = program.lesson.get() ?? use(program.lesson.load());
  const studio = program.studio.get() ?? use(program.studio.load());
  const { lane } = useWatched(studio.players);
  const here = useMemo(() => ({ ...lesson, round: lesson.rounds[lane === 1 ? 1 : 0] }), [lesson, lane]);
  return <Context value={here}>{children}</Context>;
}

/** The parts of the running lesson. */
export function useLesson(): Lesson {
  const lesson = use(Context);
  if (!lesson)
    throw new Error("This part of a screen was drawn outside the lesson. Put it inside WithLesson.");
  return lesson;
}
