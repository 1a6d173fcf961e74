import { useMemo } from "react";
import type { Click } from "../../../engine/listening/index.ts";
import type { Asked, RoundStage } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { Note, Page } from "../../app/Page.tsx";
import { BarRing, type PlayedMark } from "../../charts/BarRing.tsx";
import { kitSentence } from "../../midi/kitState.ts";
import { LiveStaff } from "../../notation/index.ts";
import { DemonstrationPanel } from "../../players/DemonstrationPanel.tsx";
import { LastStrike } from "../../session/LastStrike.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { NoKit } from "../kit/NoKit.tsx";
import styles from "./CallAStyle.module.css";
import { EmptyRing } from "./EmptyRing.tsx";
import { countInOf, liveClock, liveGroove, liveMarks, writtenGroove } from "./liveRing.ts";
import { askedTitle, hearingLines } from "./roundWords.ts";
import type { StyleRound } from "./styleRound.ts";
import { useCountIn } from "./useCountIn.ts";
import { sessionNow, useHandPlace } from "./useHandPlace.ts";

const RING_PIXELS = 420;
const STAFF_SPACE = 9;
const NO_MARKS: readonly PlayedMark[] = [];

/** While the take is played: the ring, what is heard and how sure; nothing is judged yet. */
export function Playing({
  asked,
  at,
}: {
  readonly asked: Asked;
  readonly at: Extract<RoundStage, { stage: "playing" }>;
}) {
  const { round, session } = useLesson();
  const count = useWatched(useWatched(session.listened).log);
  const kit = useWatched(session.connection);
  const hits = useMemo(() => {
    void count; // The log grows in place: its length says that there is more.
    return round.hits();
  }, [round, count]);
  const lines = hearingLines(at, hits.length);
  return (
    <Page
      title={askedTitle(asked)}
      sub="I am listening. Play two bars or more; stop with Escape or Enter."
      takesFocus
      margin={
        <>
          <Note heading="Last strike">
            <LastStrike />
          </Note>
          <DemonstrationPanel />
        </>
      }
    >
      {kit.state === "unplugged" && (
        <p role="alert" className={styles.trouble}>
          {kitSentence(kit)}
        </p>
      )}
      {at.trouble !== null && (
        <p role="alert" className={styles.trouble}>
          {at.trouble} The take goes on, and is judged when you stop.
        </p>
      )}
      <div className={styles.look}>
        <Ring asked={asked} at={at} hits={hits} />
        <div className={styles.heard}>
          <Count asked={asked} click={at.click} />
          <div>
            <p className={styles.say} role="status">
              {lines.say}
            </p>
            {/* Every bar changes them: they are there to be read, not to be spoken. */}
            <p>{lines.figures}</p>
          </div>
          <Button weight="go" onPress={() => void round.stop()}>
            Stop
          </Button>
          {hits.length === 0 && kit.state !== "unplugged" && <NoKit />}
        </div>
      </div>
      <WrittenStaff asked={asked} at={at} hits={hits} />
    </Page>
  );
}

interface Live {
  readonly asked: Asked;
  readonly at: Extract<RoundStage, { stage: "playing" }>;
  readonly hits: ReturnType<StyleRound["hits"]>;
}

/** What is called or heard, written; nothing while neither is known. */
function WrittenStaff({ asked, at: { click, hearing }, hits }: Live) {
  const clock = useMemo(() => liveClock(asked, { click, hearing }), [asked, click, hearing]);
  const groove = useMemo(
    () => writtenGroove(asked) ?? liveGroove(asked, { click, hearing }, hits),
    [asked, click, hearing, hits],
  );
  if (!groove) return null;
  return (
    <LiveStaff
      groove={groove}
      label={`${groove.name} on the staff`}
      space={STAFF_SPACE}
      clock={clock}
      now={sessionNow}
    />
  );
}

function Ring({ asked, at, hits }: Live) {
  const { click, hearing } = at;
  const clock = useMemo(() => liveClock(asked, { click, hearing }), [asked, click, hearing]);
  const groove = useMemo(() => liveGroove(asked, { click, hearing }, hits), [asked, click, hearing, hits]);
  const played = useMemo(() => (clock ? liveMarks(hits, clock) : NO_MARKS), [hits, clock]);
  const hand = useHandPlace(clock);
  if (!groove && !clock) return <EmptyRing size={RING_PIXELS} />;
  return (
    <BarRing
      groove={groove}
      played={played}
      handPlace={hand}
      size={RING_PIXELS}
      beats={clock?.beatsPerTurn}
      label={clock ? "Bar ring of the latest bars" : "Bar ring of what is called, as written"}
    />
  );
}

/** The count before the first beat. Its place is kept, so that nothing jumps on the one. */
function Count({ asked, click }: { readonly asked: Asked; readonly click: Click | null }) {
  const countIn = useMemo(() => countInOf(asked, { click }), [asked, click]);
  const word = useCountIn(countIn);
  return countIn ? <p className={styles.count}>{word}</p> : null;
}
