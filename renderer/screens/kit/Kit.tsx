import { useState } from "react";
import { Page } from "../../app/Page.tsx";
import { useProgram } from "../../app/ProgramContext.tsx";
import { kitSentence } from "../../midi/kitState.ts";
import { DemonstrationPanel } from "../../players/DemonstrationPanel.tsx";
import { LastStrike } from "../../session/LastStrike.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { Cautions } from "./Cautions.tsx";
import { ConnectionControls } from "./ConnectionControls.tsx";
import styles from "./Kit.module.css";
import { KitMapControls } from "./KitMapControls.tsx";
import { LearnKit } from "./LearnKit.tsx";
import { StrikeList } from "./StrikeList.tsx";
import { opennessWords } from "./strikeWords.ts";
import { VoiceMarks } from "./VoiceMarks.tsx";

/** The Kit screen: the cable, what each pad is, and proof that every strike arrives. */
export function Kit() {
  const { session } = useProgram();
  const kit = useWatched(session.connection);
  const [lesson, setLesson] = useState<"none yet" | "going on" | "ended">("none yet");
  const isLearning = lesson === "going on";
  return (
    <Page title="Kit" sub={<p role="status">{kitSentence(kit)}</p>} margin={<KitMargin />}>
      <div className={styles.controls}>
        <ConnectionControls />
        <KitMapControls />
        {!isLearning && (
          <Button autoFocus={lesson === "ended"} onPress={() => setLesson("going on")}>
            Learn this kit
          </Button>
        )}
      </div>
      {isLearning && <LearnKit onEnd={() => setLesson("ended")} />}
      <Strikes isLearning={isLearning} />
    </Page>
  );
}

function Strikes({ isLearning }: { readonly isLearning: boolean }) {
  const { session } = useProgram();
  useWatched(session.log);
  const { latestOfVoice, openness, retriggers } = session.log;
  const now = Math.max(-1, ...[...latestOfVoice.values()].map(({ index }) => index));
  const unknown = latestOfVoice.get("unknown");
  return (
    <>
      <VoiceMarks
        latest={latestOfVoice}
        now={now}
        left={
          <>
            <LastStrike />
            {openness !== undefined && <p>Hi-hat {opennessWords(openness)}.</p>}
          </>
        }
        right={<p className={styles.keys}>The letters play too. Shift: accent. Alt: ghost.</p>}
      />
      <div className={styles.states}>
        {retriggers > 0 && (
          <p>Double triggers: {retriggers}. They are shown, and left out of every figure.</p>
        )}
        {unknown && !isLearning && (
          <p className={styles.unknown}>
            Key {unknown.hit.pad} is on no pad of this map. Choose another map, or learn this kit.
          </p>
        )}
      </div>
      <StrikeList />
    </>
  );
}

function KitMargin() {
  return (
    <>
      <DemonstrationPanel />
      <Cautions />
    </>
  );
}
