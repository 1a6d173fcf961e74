import { lazy, Suspense, useState } from "react";
import { Page } from "../../app/Page.tsx";
import { PageToCome } from "../../app/PageToCome.tsx";
import { useProgram } from "../../app/ProgramContext.tsx";
import { hrefOf, useRest } from "../../app/route.ts";
import { useIsTaking } from "../../app/useIsTaking.ts";
import { SoundControls } from "../../audio/SoundControls.tsx";
import { TomPitchBoxes } from "../../audio/TomPitchBoxes.tsx";
import { type KitState, kitSentence } from "../../midi/kitState.ts";
import type { SecondKitState } from "../../midi/secondKit.ts";
import { DemonstrationPanel } from "../../players/DemonstrationPanel.tsx";
import type { HeardKit } from "../../session/heardKit.ts";
import { LastStrike } from "../../session/LastStrike.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { Cautions } from "./Cautions.tsx";
import { ConnectionControls } from "./ConnectionControls.tsx";
import { HandPadBoxes } from "./HandPadBoxes.tsx";
import { HowLate } from "./HowLate.tsx";
import styles from "./Kit.module.css";
import { KitMapControls } from "./KitMapControls.tsx";
import { KitSwitch } from "./KitSwitch.tsx";
import { LearnCommands } from "./LearnCommands.tsx";
import { LearnKit } from "./LearnKit.tsx";
import { lateWords } from "./latenessWords.ts";
import { StrikeList } from "./StrikeList.tsx";
import { opennessWords } from "./strikeWords.ts";
import { VoiceMarks } from "./VoiceMarks.tsx";

type Opened = "lesson" | "how late" | "commands";

/** The page of Kit on which a room is joined: what the network needs is fetched with it. */
const RoomPage = lazy(async () => ({ default: (await import("./room/RoomPage.tsx")).RoomPage }));

/** The Kit screen: the kits of this computer, or the room in which a far one is heard. */
export function Kit() {
  const [page] = useRest();
  if (page !== "room") return <KitsHere />;
  return (
    <Suspense fallback={<PageToCome title="Room" />}>
      <RoomPage />
    </Suspense>
  );
}

/** The cable, what each pad is, and proof that every strike arrives. */
function KitsHere() {
  const { session } = useProgram();
  const cable = useWatched(session.connection);
  const second = useWatched(session.secondKit);
  const [shown, setShown] = useState<0 | 1>(0);
  const isOfTwo = second.state !== "none";
  const kit = session.kits[isOfTwo ? shown : 0];
  return (
    <Page title="Kit" sub={<p role="status">{cablesSentence(cable, second)}</p>} margin={<KitMargin />}>
      <div className={styles.controls}>
        <ConnectionControls />
        <a className={styles.way} href={hrefOf("kit", "room")}>
          A kit far away
        </a>
      </div>
      {isOfTwo && <ShownKit shown={shown} onShow={setShown} />}
      <OneKit key={isOfTwo ? shown : 0} kit={kit} />
    </Page>
  );
}

/** Of two kits, the one that the page is about, each with its own map and set-up. */
function ShownKit({ shown, onShow }: { readonly shown: 0 | 1; readonly onShow: (kit: 0 | 1) => void }) {
  const { session } = useProgram();
  const [first, second] = session.kits;
  const maps = [useWatched(first.kitMap).map, useWatched(second.kitMap).map];
  useWatched(session.setUps);
  return (
    <div className={styles.shown}>
      <KitSwitch
        label="On this page"
        kits={session.kits.map((kit, index) => {
          const calibration = session.setUps.calibrationOf(kit.setUpOf("kit"));
          const late = calibration.giveOrTakeMs === null ? "delay not measured" : lateWords(calibration);
          return { name: kit.input ?? "no kit", about: `${maps[index]?.name ?? ""}, ${late}` };
        })}
        chosen={shown}
        onChoose={(kit) => onShow(kit === 1 ? 1 : 0)}
      />
    </div>
  );
}

/** What is known of one kit, and all it sends. */
function OneKit({ kit }: { readonly kit: HeardKit }) {
  const isTaking = useIsTaking();
  const [opened, setOpened] = useState<Opened | null>(null);
  /** What was closed last: the keyboard goes on at the button that opened it. */
  const [closed, setClosed] = useState<Opened | null>(null);
  const close = (): void => {
    setClosed(opened);
    setOpened(null);
  };
  return (
    <>
      <div className={styles.controls}>
        <KitMapControls kit={kit} />
        {opened === null && (
          <>
            <Button autoFocus={closed === "lesson"} onPress={() => setOpened("lesson")}>
              Learn this kit
            </Button>
            <Button
              autoFocus={closed === "how late"}
              // Its click would take the place of the take's.
              isDisabled={isTaking}
              onPress={() => setOpened("how late")}
            >
              How late is it?
            </Button>
            <Button autoFocus={closed === "commands"} onPress={() => setOpened("commands")}>
              Commands
            </Button>
          </>
        )}
      </div>
      {opened === "lesson" && <LearnKit kit={kit} onEnd={close} />}
      {opened === "how late" && <HowLate kit={kit} onEnd={close} />}
      {opened === "commands" && <LearnCommands kit={kit} onEnd={close} />}
      <Strikes kit={kit} isLearning={opened === "lesson" || opened === "commands"} />
    </>
  );
}

function Strikes({ kit, isLearning }: { readonly kit: HeardKit; readonly isLearning: boolean }) {
  const { log } = kit;
  useWatched(log);
  const { latestOfVoice, openness, retriggers } = log;
  const now = Math.max(-1, ...[...latestOfVoice.values()].map(({ index }) => index));
  const unknown = latestOfVoice.get("unknown");
  return (
    <>
      <VoiceMarks
        latest={latestOfVoice}
        now={now}
        left={
          <>
            <LastStrike of={kit} />
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
      <StrikeList log={log} />
    </>
  );
}

function cablesSentence(cable: KitState, second: SecondKitState): string {
  switch (second.state) {
    case "none":
      return kitSentence(cable);
    case "connected":
      return cable.state === "connected"
        ? `${cable.input.name} and ${second.input.name} are connected.`
        : `${kitSentence(cable)} ${second.input.name} is connected.`;
    case "unplugged":
      return `${kitSentence(cable)} ${second.input.name} is unplugged: it is taken up again by itself.`;
  }
}

function KitMargin() {
  return (
    <>
      <DemonstrationPanel />
      <SoundControls />
      <TomPitchBoxes />
      <HandPadBoxes />
      <Cautions />
    </>
  );
}
