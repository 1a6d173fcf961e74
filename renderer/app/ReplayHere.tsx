import { ReplayScreen } from "../screens/replay/ReplayScreen.tsx";
import { useProgram } from "./ProgramContext.tsx";
import { useStudio } from "./StudioContext.tsx";

/** Replay on the studio of this computer. */
export function ReplayHere() {
  const { sound } = useProgram();
  const { database, book } = useStudio();
  return <ReplayScreen database={database} log={book.log} sound={sound} />;
}
