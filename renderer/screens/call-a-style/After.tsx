import { lazy, type ReactNode, Suspense, useState } from "react";
import type { Asked, RoundStage } from "../../../engine/rounds/index.ts";
import type { Milliseconds } from "../../../engine/units/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { Note, Page } from "../../app/Page.tsx";
import { useProgram } from "../../app/ProgramContext.tsx";
import { TakenFrom } from "../../out/TakenFrom.ts";
import { DemonstrationPanel } from "../../players/DemonstrationPanel.tsx";
import { useWatched } from "../../session/store.ts";
import { struckGiveOrTakeMs } from "../../session/struckSetUp.ts";
import { Button } from "../../theme/index.ts";
import styles from "./CallAStyle.module.css";
import { takeOrigin } from "./report/takeOrigin.ts";
import { calledName } from "./roundWords.ts";
import { useNextStyle } from "./useNextStyle.ts";

// The charts come with the first report, not with the first screen.
const ReportSheet = lazy(async () => ({ default: (await import("./report/index.ts")).ReportSheet }));
const EarlierTakes = lazy(async () => ({ default: (await import("./beside/index.ts")).EarlierTakes }));
const TakeItAlong = lazy(async () => ({ default: (await import("./report/index.ts")).TakeItAlong }));
const ReportMargin = lazy(async () => ({ default: (await import("./report/index.ts")).ReportMargin }));

/** After the take: the report, and what can be done next. */
export function After({
  asked,
  at,
}: {
  readonly asked: Asked;
  readonly at: Extract<RoundStage, { stage: "after" | "failed" }>;
}) {
  if (at.stage === "failed") {
    return (
      <Page
        title="The take could not be thought over"
        sub={at.reason}
        takesFocus
        margin={<DemonstrationPanel />}
      >
        <p>Begin again. If it happens twice, close the program and open it anew.</p>
        <Next />
      </Page>
    );
  }
  return <Reported asked={asked} at={at} />;
}

/** A take that was judged. */
function Reported({
  asked,
  at,
}: {
  readonly asked: Asked;
  readonly at: Extract<RoundStage, { stage: "after" }>;
}) {
  const setUpGiveOrTakeMs = useSetUpGiveOrTake();
  const { judgement, hits } = at;
  // Files are called by the day the take was played.
  const [day] = useState(() => new Date());
  if (judgement.hitCount === 0) {
    return (
      <Page
        title="Nothing was played"
        sub="No strike came between start and stop."
        takesFocus
        margin={<DemonstrationPanel />}
      >
        <p>
          Look in <a href="#/kit">Kit</a> whether strikes arrive, play on the letters A to ; of this computer,
          or let the demonstration play.
        </p>
        <Next />
      </Page>
    );
  }
  const { hearing, compared } = judgement;
  const origin = takeOrigin(judgement, day);
  return (
    <Page
      title="Report"
      sub={null}
      takesFocus
      margin={
        <Loaded>
          <ReportMargin
            report={compared?.report}
            hearing={hearing}
            calledName={calledName(asked)}
            setUpGiveOrTakeMs={setUpGiveOrTakeMs}
          />
          {hearing.kind === "heard" && (
            <Note heading="Caution">
              <p>A break every half hour; stop when it hurts.</p>
            </Note>
          )}
        </Loaded>
      }
    >
      <TakenFrom value={origin}>
        <Loaded>
          <ReportSheet
            report={compared?.report}
            hearing={hearing}
            groove={compared?.groove}
            calledName={calledName(asked)}
            click={judgement.click !== null}
            gapDrifts={compared?.gapDrifts}
            setUpGiveOrTakeMs={setUpGiveOrTakeMs}
            hits={hits}
            beside={<EarlierTakes />}
          />
        </Loaded>
      </TakenFrom>
      <Next>
        <Suspense>
          <TakeItAlong judgement={judgement} hits={hits} origin={origin} calledName={calledName(asked)} />
        </Suspense>
      </Next>
    </Page>
  );
}

/** How well the delay of the set-up that was struck last is known; `undefined` where no hand struck. */
function useSetUpGiveOrTake(): Milliseconds | null | undefined {
  const { session } = useProgram();
  useWatched(session.setUps);
  return struckGiveOrTakeMs(session);
}

function Loaded({ children }: { readonly children: ReactNode }) {
  return <Suspense fallback={<p>The report is being set.</p>}>{children}</Suspense>;
}

function Next({ children }: { readonly children?: ReactNode }) {
  const { round } = useLesson();
  const next = useNextStyle(round);
  return (
    <div className={`${styles.go} ${styles.next}`}>
      <Button weight="go" onPress={() => round.again()}>
        Again
      </Button>
      <kbd>R</kbd>
      {next ? (
        <Button onPress={next.act}>{next.words}</Button>
      ) : (
        <Button onPress={() => round.dispatch({ kind: "another-style" })}>Another style</Button>
      )}
      <kbd>N</kbd>
      {children}
    </div>
  );
}
