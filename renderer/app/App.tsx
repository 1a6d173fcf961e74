import { useEffect } from "react";
import { CallAStyle } from "../screens/call-a-style/CallAStyle.tsx";
import { Kit } from "../screens/kit/Kit.tsx";
import { Wall } from "../wall/Wall.tsx";
import { WallSender } from "../wall/WallSender.tsx";
import styles from "./App.module.css";
import { ProgramProvider } from "./ProgramContext.tsx";
import type { Program } from "./program.ts";
import { type ScreenId, useRoute } from "./route.ts";
import { Spine } from "./Spine.tsx";

/**
 * What a window shows: the book, or the wall view of a book open in another window (which runs no program of
 * its own).
 */
export function App({ program }: { readonly program: Program | null }) {
  const route = useRoute();
  return program === null || route === "wall" ? <Wall /> : <Book program={program} screen={route} />;
}

function Book({ program, screen }: { readonly program: Program; readonly screen: ScreenId }) {
  useFilesDropped(program);
  return (
    <ProgramProvider value={program}>
      <div className={styles.frame}>
        <Spine here={screen} />
        {screen === "kit" ? <Kit /> : <CallAStyle />}
      </div>
      <WallSender screen={screen} />
    </ProgramProvider>
  );
}

/** A MIDI file may be dropped anywhere on the window. */
function useFilesDropped({ demonstration }: Program): void {
  useEffect(() => {
    const allow = (event: DragEvent): void => event.preventDefault();
    const take = (event: DragEvent): void => {
      event.preventDefault();
      const file = event.dataTransfer?.files[0];
      if (file) void demonstration.takeFile(file);
    };
    window.addEventListener("dragover", allow);
    window.addEventListener("drop", take);
    return () => {
      window.removeEventListener("dragover", allow);
      window.removeEventListener("drop", take);
    };
  }, [demonstration]);
}
