import { useState } from "react";
import { kitInShort } from "../midi/kitState.ts";
import { useWatched } from "../session/store.ts";
import { Button } from "../theme/index.ts";
import { openWall } from "../wall/openWall.ts";
import { useProgram } from "./ProgramContext.tsx";
import { hrefOf, SCREENS, type ScreenId } from "./route.ts";
import styles from "./Spine.module.css";

/** The names of the book, and how the kit stands. */
export function Spine({ here }: { readonly here: ScreenId }) {
  const { session } = useProgram();
  const kit = useWatched(session.connection);
  const { map } = useWatched(session.kitMap);
  const [wallBlocked, setWallBlocked] = useState(false);
  return (
    <header className={styles.spine}>
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
        <Button weight="quiet" onPress={() => setWallBlocked(!openWall())}>
          Wall view
        </Button>
        {wallBlocked && (
          <p role="alert">The browser kept the second window shut. Allow pop-up windows for this page.</p>
        )}
        <p>
          {kitInShort(kit)}
          <br />
          {map.name}
        </p>
      </div>
    </header>
  );
}
