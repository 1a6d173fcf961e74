import { type RefObject, Suspense, useEffect, useRef, useState } from "react";
import { type KitState, kitInShort } from "../midi/kitState.ts";
import type { SecondKitState } from "../midi/secondKit.ts";
import { useWatched } from "../session/store.ts";
import { Button } from "../theme/index.ts";
import { openWall } from "../wall/openWall.ts";
import { LessonOn } from "./laterPages.ts";
import { useProgram } from "./ProgramContext.tsx";
import { hrefOf, SCREENS, type ScreenId } from "./route.ts";
import styles from "./Spine.module.css";
import { WithStudio } from "./StudioContext.tsx";

/** The names of the book, and how the kit stands. */
export function Spine({ here }: { readonly here: ScreenId }) {
  const program = useProgram();
  const { session } = program;
  const studio = useWatched(program.studio);
  const kit = useWatched(session.connection);
  const second = useWatched(session.secondKit);
  const { map } = useWatched(session.kitMap);
  const [wallBlocked, setWallBlocked] = useState(false);
  const names = useRef<HTMLElement>(null);
  useInSight(names, here);
  return (
    <header className={styles.spine} ref={names}>
      <p className={styles.name}>Throneside</p>
      <nav aria-label="Screens">
        <ul className={styles.screens}>
          {SCREENS.map(({ id, name }) => (
            <li key={id}>
              <a className={styles.screen} href={hrefOf(id)} aria-current={id === here ? "page" : undefined}>
                {name}
              </a>
            </li>
          ))}
        </ul>
      </nav>
      <div className={styles.foot}>
        {studio && (
          <Suspense fallback={null}>
            <WithStudio>
              <LessonOn />
            </WithStudio>
          </Suspense>
        )}
        <Button weight="quiet" onPress={() => setWallBlocked(!openWall())}>
          Wall view
        </Button>
        {wallBlocked && (
          <p role="alert">The browser kept the second window shut. Allow pop-up windows for this page.</p>
        )}
        {second.state === "none" ? (
          <p className={styles.kit}>
            {kitInShort(kit)}
            <span className={styles.map}>
              <br />
              {map.name}
            </span>
          </p>
        ) : (
          <p>{kitsInShort(kit, second)}</p>
        )}
      </div>
    </header>
  );
}

/** Where not all names are in sight at once, that of the page is. */
function useInSight(names: RefObject<HTMLElement | null>, here: ScreenId): void {
  // The name that is current changes with the page.
  useEffect(() => {
    const spine = names.current;
    // Where the names stand above the page they do not scroll, and the page must not.
    if (here && spine && spine.scrollHeight > spine.clientHeight)
      spine.querySelector("[aria-current=page]")?.scrollIntoView({ block: "nearest" });
  }, [names, here]);
}

/** Two kits, each with a map of its own: which is on the page Kit. */
function kitsInShort(kit: KitState, second: SecondKitState): string {
  if (kit.state !== "connected") return kitInShort(kit);
  return second.state === "connected" ? "Both kits: ready" : "Second kit: unplugged";
}
