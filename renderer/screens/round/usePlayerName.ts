import type { PlayerId } from "../../../engine/rounds/index.ts";
import { useStudio } from "../../app/StudioContext.tsx";

/** What a player is called on the page; the teacher where it is nobody in particular. */
export function usePlayerName(): (id: PlayerId | null) => string {
  const { roster } = useStudio();
  return (id) => (id === null ? "The teacher" : (roster.student(id)?.nickname ?? "A student"));
}
