import { isCalled, sayAndStrikeRules } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { Note } from "../../app/Page.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { RoundFrame } from "../round/RoundFrame.tsx";
import { Answering } from "./Answering.tsx";
import { BeforeRound } from "./BeforeRound.tsx";
import { Calling } from "./Calling.tsx";
import { HeardForAGlance } from "./HeardForAGlance.tsx";
import { MisheardNote } from "./MisheardNote.tsx";
import styles from "./SayAndStrike.module.css";
import { Told } from "./Told.tsx";
import { VoicesLearnt } from "./VoicesLearnt.tsx";
import { WhereItBegins } from "./WhereItBegins.tsx";
import { WhoStrikes } from "./WhoStrikes.tsx";

const CARD = [
  "A phrase is said in drum syllables. Listen to all of it.",
  "Strike it, in its rhythm and on its sounds. How fast does not matter.",
  "Turned round, one strikes and the other says it.",
] as const;

/** Say & Strike: a phrase of drum syllables is said, and struck; or struck, and said. */
export function SayAndStrike() {
  const { framed } = useLesson();
  const round = framed["say-and-strike"];
  const { own, stage } = useWatched(round);
  const { calling, proposal } = useWatched(round.doing);
  const { doing } = useWatched(round.ear);
  const { call, roles } = own;
  const isWaiting = call !== null && isCalled(call);
  return (
    <RoundFrame
      round={round}
      title="Say & Strike"
      sub={roles === "student-says" ? "Turned round: one strikes, the other says it." : undefined}
      card={CARD}
      names={proposal ? { next: "That is it", again: "Say it again" } : { next: "The program’s phrase" }}
      before={
        <>
          <WhoStrikes />
          <WhereItBegins />
          <BeforeRound />
        </>
      }
      shown={sayAndStrikeRules.shown(own)}
      tally={<MisheardNote />}
      margin={
        <>
          {stage === "running" && <MisheardNote />}
          <Note heading="Your voice">
            <p>
              The microphone is opened when you ask for it. What it hears is analysed in memory and let go.
              How you say each syllable is remembered until the program is closed, and stored nowhere.
            </p>
          </Note>
        </>
      }
      actions={
        isWaiting && (
          <Button weight="quiet" onPress={() => round.letBe()}>
            Leave it, take another
          </Button>
        )
      }
    >
      {proposal ? (
        <HeardForAGlance proposal={proposal} />
      ) : doing !== "nothing" ? (
        <Listening />
      ) : calling !== null ? (
        <StrikeTheCall />
      ) : isWaiting ? (
        <Answering call={call} />
      ) : (
        <>
          {call && <Told call={call} />}
          <Calling key={own.past.length} />
          {own.past.length === 0 && <WhereItBegins />}
          <VoicesLearnt />
        </>
      )}
    </RoundFrame>
  );
}

function Listening() {
  const { framed } = useLesson();
  const round = framed["say-and-strike"];
  const { doing } = useWatched(round.ear);
  return (
    <section aria-labelledby="listening">
      <h2 id="listening" className={styles.asked}>
        {doing === "listening" ? "I am listening." : "Thinking it over."}
      </h2>
      <p role="status" className={styles.status}>
        {doing === "listening" ? "Begin after a moment of quiet. A silence ends it." : "This takes a moment."}
      </p>
      <Button onPress={() => round.dropProposal()}>Stop listening</Button>
    </section>
  );
}

function StrikeTheCall() {
  const { framed } = useLesson();
  const { calling } = useWatched(framed["say-and-strike"].doing);
  return (
    <section aria-labelledby="strike-call">
      <h2 id="strike-call" className={styles.asked}>
        Strike a phrase on the kit.
      </h2>
      <p role="status" className={styles.status}>
        {calling === 0
          ? "What I hear is the phrase, whatever was meant. A silence ends it."
          : "I am listening. A silence ends it."}
      </p>
    </section>
  );
}
