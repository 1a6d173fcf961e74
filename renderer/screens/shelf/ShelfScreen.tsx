import { useLayoutEffect } from "react";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Browse } from "./Browse.tsx";
import { fromDrop } from "./import/chosenFiles.ts";
import { ImportPage } from "./import/ImportPage.tsx";
import { OpenEntry } from "./OpenEntry.tsx";
import { RecordPage } from "./record/RecordPage.tsx";

/** The Shelf: the studio's library of grooves, fills, phrases and drum parts. */
export function ShelfScreen() {
  const { shelfDesk } = useLesson();
  const { view } = useWatched(shelfDesk);
  useFilesDropped(view.at === "browse" || view.at === "import");
  switch (view.at) {
    case "browse":
      return <Browse />;
    case "open":
      return <OpenEntry key={view.draft.id} draft={view.draft} />;
    case "record":
      return <RecordPage />;
    case "import":
      return <ImportPage />;
  }
}

/** Files and folders dropped on the list, or where files are chosen, are put on the Shelf. */
function useFilesDropped(isTaken: boolean): void {
  const { shelfDesk, shelfImport } = useLesson();
  // As soon as the page is drawn: a file dropped in that moment counts as well.
  useLayoutEffect(() => {
    const allow = (event: DragEvent): void => event.preventDefault();
    const take = (event: DragEvent): void => {
      event.preventDefault();
      if (!isTaken || !event.dataTransfer) return;
      shelfDesk.import();
      // What was dropped must be asked for now: later nothing is there any more.
      void fromDrop(event.dataTransfer.items).then((chosen) => shelfImport.start(chosen));
    };
    window.addEventListener("dragover", allow);
    window.addEventListener("drop", take);
    return () => {
      window.removeEventListener("dragover", allow);
      window.removeEventListener("drop", take);
    };
  }, [isTaken, shelfDesk, shelfImport]);
}
