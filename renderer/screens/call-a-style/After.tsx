import { lazy, type ReactNode, Suspense } from "react";
import type { Asked, RoundStage } from "../../../engine/rounds/index.ts";
import { Note, Page } from "../../app/Page.tsx";
import { useProgram } from "../../app/ProgramContext.tsx";
import { DemonstrationPanel } from "../../players/DemonstrationPanel.tsx";
import { Button } from "../../theme/index.ts";
import styles from "./CallAStyle.module.css";
import { calledName } from "./roundWords.ts";

// The charts come with the first report, not with the first screen.
const ReportSheet = lazy(async () => ({ default: (await import("./report/index.ts")).ReportSheet }));
const EarlierTakes = lazy(async () => ({ default: (await import("./beside/index.ts")).EarlierTakes }));
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
  const { judgement, hits } = at;
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
  return (
    <Page
      title="Report"
      sub={null}
      takesFocus
      margin={
        <Loaded>
          <ReportMargin report={compared?.report} hearing={hearing} calledName={calledName(asked)} />
          {hearing.kind === "heard" && (
            <Note heading="Caution">
              <p>A break every half hour; stop when it hurts.</p>
            </Note>
          )}
        </Loaded>
      }
    >
      <Loaded>
        <ReportSheet
          report={compared?.report}
          hearing={hearing}
          groove={compared?.groove}
          calledName={calledName(asked)}
          click={judgement.clicked}
          hits={hits}
          beside={<EarlierTakes />}
        />
      </Loaded>
      <Next />
    </Page>
  );
}

function Loaded({ children }: { readonly children: ReactNode }) {
  return <Suspense fallback={<p>The report is being set.</p>}>{children}</Suspense>;
}

function Next() {
  const { round } = useProgram();
  return (
    <div className={`${styles.go} ${styles.next}`}>
      <Button weight="go" onPress={() => round.start()}>
        Again
      </Button>
      <kbd>R</kbd>
      <Button onPress={() => round.dispatch({ kind: "another-style" })}>Another style</Button>
      <kbd>N</kbd>
    </div>
  );
}
