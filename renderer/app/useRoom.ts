import { use } from "react";
import type { RoomDesk } from "../room/roomDesk.ts";
import { useProgram } from "./ProgramContext.tsx";

/** The room of this program; waits until it is put together. */
export function useRoom(): RoomDesk {
  const { room } = useProgram();
  return room.get() ?? use(room.load());
}
