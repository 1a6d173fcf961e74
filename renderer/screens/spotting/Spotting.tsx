import { isNameDue, nameItem, playItem, spottingRules, thingKey } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { RoundFrame } from "../round/RoundFrame.tsx";
import { BeforeRound } from "./BeforeRound.tsx";
import { Listening } from "./Listening.tsx";
import { NameIt } from "./NameIt.tsx";
import { Spotted } from "./Spotted.tsx";
import styles from "./Spotting.module.css";
import { WhatIsHeard } from "./WhatIsHeard.tsx";

const CARD = [
  "Something is played: a groove, a fill, or a part of a tune.",
  "Say its name, type it, or play it back.",
  "“I know it from somewhere” and “never heard it” are answers too.",
] as const;

/** Spotting: something is played, the one who listens names it. */
export function Spotting() {
  const { framed } = useLesson();
  const round = framed.spotting;
  const { own } = useWatched(round);
  useWatched(round.hearing);
  useWatched(round.sounding);
  const trouble = useWatched(round.trouble);
  const { question, roles } = own;
  const isDue = question !== null && isNameDue(question);
  return (
    <RoundFrame
      round={round}
      title="Spotting"
      sub={roles === "teacher-names" ? "Turned round: the student plays, the teacher names." : undefined}
      card={CARD}
      names={isDue && round.hearing.get().what === "question" ? { next: "That was it" } : {}}
      before={<BeforeRound />}
      shown={spottingRules.shown(own)}
      ownNames={
        new Map(
          own.past.flatMap(({ key: { thing } }) =>
            thing
              ? [
                  [nameItem(thing), thing.name],
                  [playItem(thing), thing.name],
                ]
              : [],
          ),
        )
      }
      margin={<WhatIsHeard />}
    >
      {trouble !== null && (
        <p role="alert" className={styles.soft}>
          {trouble}
        </p>
      )}
      {question === null ? (
        <Listening />
      ) : isDue ? (
        // Another question begins with an empty line.
        <NameIt key={own.past.length} question={question} />
      ) : (
        <Spotted key={question.key.thing ? thingKey(question.key.thing) : "none"} question={question} />
      )}
    </RoundFrame>
  );
}
