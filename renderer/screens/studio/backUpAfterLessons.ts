/** In the desktop shell an archive is put into the backup folder after every lesson. */
import type { LessonState } from "../../../engine/session/index.ts";
import { messageOf } from "../../out/saveFile.ts";
import { Store, type Watched } from "../../session/store.ts";

/** Why the last one was not made; `null` while all is well. */
export class BackUpAfterLessons extends Store<string | null, string | null> {
  /** @param backUp makes one; does nothing where no folder is chosen. */
  constructor(lesson: Watched<LessonState>, backUp: () => Promise<unknown>) {
    super(null, (_, trouble) => trouble);
    let { stage } = lesson.get();
    lesson.subscribe(() => {
      const before = stage;
      stage = lesson.get().stage;
      if (stage !== "ended" || before === "ended") return;
      backUp().then(
        () => this.dispatch(null),
        (error) => this.dispatch(`The backup after the lesson was not made: ${messageOf(error)}`),
      );
    });
  }
}
