import { useState } from "react";
import { useProgram } from "../../app/ProgramContext.tsx";
import { hrefOf } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button, Choice } from "../../theme/index.ts";
import { beginLesson } from "./beginLesson.ts";
import styles from "./Desk.module.css";

/** A lesson of two, each on a kit of their own: who sits where. Which kit is which is said on the page Kit. */
export function TwoStudents({ isBlocked }: { readonly isBlocked: boolean }) {
  const { session, lesson } = useProgram();
  const studio = useStudio();
  const { students } = useWatched(studio.roster);
  const kit = useWatched(session.connection);
  const secondKit = useWatched(session.secondKit);
  const [isOpen, setOpen] = useState(false);
  const [first, setFirst] = useState<string | null>(null);
  const [second, setSecond] = useState<string | null>(null);
  const options = (students ?? [])
    .filter(({ archived }) => !archived)
    .map(({ id, nickname }) => ({ id, name: nickname }));
  if (!isOpen)
    return (
      <Button weight="quiet" onPress={() => setOpen(true)}>
        Two students on two kits
      </Button>
    );
  const free = session.secondKit.free();
  const areConnected = kit.state === "connected" && secondKit.state === "connected";
  const isSame = first !== null && first === second;
  return (
    <fieldset className={styles.two}>
      <legend>Two students on two kits</legend>
      {areConnected ? (
        isSame && <p role="status">One student cannot sit at both kits.</p>
      ) : (
        <p>
          {kit.state === "connected" ? "There is no second kit yet. " : "No kit is connected yet. "}
          {kit.state === "connected" && free.length === 0 ? "Plug it in, then say" : "Say"} on the page{" "}
          <a href={hrefOf("kit")}>Kit</a> which is which.
        </p>
      )}
      <div className={styles.acts}>
        {areConnected && (
          <>
            <Choice label={`At ${kit.input.name}`} options={options} chosen={first} onChoose={setFirst} />
            <Choice
              label={`At ${secondKit.input.name}`}
              options={options}
              chosen={second}
              onChoose={setSecond}
            />
            <Button
              weight="go"
              isDisabled={isBlocked || first === null || second === null || isSame}
              onPress={() => {
                if (first !== null && second !== null)
                  void beginLesson({ session, lesson }, studio, first, second);
              }}
            >
              Begin with both
            </Button>
          </>
        )}
        <Button weight="quiet" onPress={() => setOpen(false)}>
          One student after all
        </Button>
      </div>
    </fieldset>
  );
}
