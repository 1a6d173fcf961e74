import { confusionTable } from "../../../engine/ear/index.ts";
import { backTurnedRules, isOpen } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import type { TallyPart } from "../../out/print/sheet.ts";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { NoKit } from "../kit/NoKit.tsx";
import { RoundFrame } from "../round/RoundFrame.tsx";
import { usePlayerName } from "../round/usePlayerName.ts";
import { useRoundKey } from "../round/useRoundKey.ts";
import { Answered } from "./Answered.tsx";
import { Asked } from "./Asked.tsx";
import { BeforeRound } from "./BeforeRound.tsx";
import { Confused, playersOf } from "./Confused.tsx";
import { confusionPart } from "./confusionWords.ts";
import { Refresher } from "./Refresher.tsx";
import { StandsNote } from "./StandsNote.tsx";

const CARD = [
  "Sit with your back to the kit. One surface is sounded, later several.",
  "Say what it was, or strike the same one.",
  "What was taken for another is sounded again, beside what it was taken for.",
] as const;

/** Letters that play nothing. */
const SIMPLER_KEY = { code: "KeyE", shown: "E" };

/** Back Turned: surfaces are sounded, the one who looks away names them. */
export function BackTurned() {
  const { framed } = useLesson();
  const round = framed["back-turned"];
  const { own, stage } = useWatched(round);
  const { what } = useWatched(round.collecting);
  const { question, roles } = own;
  const nameOf = usePlayerName();
  const isAsked = question !== null && isOpen(question);
  const canBeSimpler = stage === "running" && isAsked;
  useRoundKey(SIMPLER_KEY.code, canBeSimpler ? () => round.simpler() : null);
  return (
    <RoundFrame
      round={round}
      title="Back Turned"
      sub={roles === "teacher-names" ? "Turned round: the student sounds, the teacher names." : undefined}
      card={CARD}
      before={<BeforeRound />}
      shown={backTurnedRules.shown(own)}
      tally={<Confused round={own} isWhole />}
      tables={() =>
        playersOf(own).flatMap((by): readonly TallyPart[] => {
          const rows = confusionTable(round.listener(by).heard());
          const whose = by === null ? "" : `: ${nameOf(by)}`;
          return rows.length === 0 ? [] : [confusionPart(`Taken for what, so far${whose}`, rows)];
        })
      }
      margin={
        <>
          <StandsNote />
          {stage !== "over" && <Confused round={own} />}
        </>
      }
      actions={
        <Button
          isDisabled={!canBeSimpler}
          aria-keyshortcuts={SIMPLER_KEY.shown}
          onPress={() => round.simpler()}
        >
          Simpler <kbd>{SIMPLER_KEY.shown}</kbd>
        </Button>
      }
    >
      {what === "question" ? (
        <WaitingForKit />
      ) : isAsked ? (
        <Asked />
      ) : question ? (
        <Answered />
      ) : (
        <Refresher />
      )}
    </RoundFrame>
  );
}

/** A kit asks: what is heard there is the key. */
function WaitingForKit() {
  const { framed } = useLesson();
  const round = framed["back-turned"];
  const { own } = useWatched(round);
  const { moments } = useWatched(round.collecting);
  const who = own.roles === "teacher-names" ? "The student sounds" : "Sound";
  return (
    <section aria-labelledby="kit-asks">
      <h2 id="kit-asks">{who} something on the kit.</h2>
      <p role="status">
        {moments.length === 0
          ? "What I hear is the key, whatever was meant. A silence ends it."
          : `Heard so far: ${moments.length === 1 ? "one stroke" : `${moments.length} strokes`}. A silence ends it.`}
      </p>
      <NoKit />
    </section>
  );
}
