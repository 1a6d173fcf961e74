import { useState } from "react";
import { type Voice, voiceName } from "../../../engine/kit/index.ts";
import { useProgram } from "../../app/ProgramContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button, TextBox } from "../../theme/index.ts";
import styles from "./SayAndStrike.module.css";

/** The syllables of this studio, to be read aloud and spelt as they are said here. */
export function BeforeRound() {
  const { syllables } = useProgram();
  const set = useWatched(syllables);
  const [isSpelling, setSpelling] = useState(false);
  return (
    <section aria-labelledby="syllables" className={styles.part}>
      <h2 id="syllables">The syllables</h2>
      {isSpelling ? (
        <>
          <p className={styles.soft}>
            Spell each as it is said here: small letters, best with a beginning no other has.
          </p>
          <ul className={styles.spelling}>
            {set.syllables.map(({ voice, text }) => (
              <li key={voice}>
                <Spelling voice={voice} text={text} />
              </li>
            ))}
          </ul>
          <p className={styles.row}>
            <Button onPress={() => setSpelling(false)}>Done</Button>
            <Button weight="quiet" onPress={() => syllables.clear()}>
              As they were at first
            </Button>
          </p>
        </>
      ) : (
        <>
          <dl className={styles.syllables}>
            {set.syllables.map(({ voice, text }) => (
              <div key={voice}>
                <dt>{text}</dt>
                <dd>{voiceName(voice)}</dd>
              </div>
            ))}
          </dl>
          <p>
            <Button weight="quiet" onPress={() => setSpelling(true)}>
              Spell them as this studio says them
            </Button>
          </p>
        </>
      )}
    </section>
  );
}

function Spelling({ voice, text }: { readonly voice: Voice; readonly text: string }) {
  const { syllables } = useProgram();
  const [typed, setTyped] = useState(text);
  const [trouble, setTrouble] = useState<string | null>(null);
  return (
    <TextBox
      label={voiceName(voice)}
      value={typed}
      most={10}
      {...(trouble === null ? {} : { hint: trouble })}
      onChange={(next) => {
        setTyped(next);
        setTrouble(syllables.spell(voice, next));
      }}
    />
  );
}
