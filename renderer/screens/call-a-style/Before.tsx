import { type Style, styleById } from "../../../engine/catalogue/index.ts";
import type { Asked } from "../../../engine/rounds/index.ts";
import { type Groove, metreName } from "../../../engine/score/index.ts";
import { Note, Page } from "../../app/Page.tsx";
import { useProgram } from "../../app/ProgramContext.tsx";
import { BarRing, type PlayedMark } from "../../charts/BarRing.tsx";
import { DemonstrationPanel } from "../../players/DemonstrationPanel.tsx";
import { useWatched } from "../../session/store.ts";
import { Button, NumberBox, Toggle } from "../../theme/index.ts";
import styles from "./CallAStyle.module.css";
import { EmptyRing } from "./EmptyRing.tsx";
import { NoKit } from "./NoKit.tsx";
import { askedTitle } from "./roundWords.ts";
import { StyleList } from "./StyleList.tsx";

const RING_PIXELS = 280;
const NO_MARKS: readonly PlayedMark[] = [];

/** Before the take: what is called, and whether there is a click. */
export function Before({ asked }: { readonly asked: Asked }) {
  const { round } = useProgram();
  const called = asked.styleId === null ? undefined : styleById(asked.styleId);
  return (
    <Page
      title="Call a Style"
      sub="Call one, or leave the choice to the player. Then listen."
      margin={
        <>
          <DemonstrationPanel />
          <Note heading="With or without a click">
            <p>
              Without one, the take is laid on its own pulse: spread is told, lean is not. With one, both are
              told against the click.
            </p>
          </Note>
        </>
      }
    >
      <div className={styles.choose}>
        <StyleList asked={asked} />
        <Called style={called} title={askedTitle(asked)} />
      </div>
      <div className={`${styles.go} ${styles.next}`}>
        <Button weight="go" onPress={() => round.start()}>
          Start listening
        </Button>
        <span className={styles.hint}>Space or Enter</span>
        <ClickControls asked={asked} />
      </div>
    </Page>
  );
}

/** What is called: its name, the bar as it is written, and what makes it itself. */
function Called({ style, title }: { readonly style: Style | undefined; readonly title: string }) {
  const { session } = useProgram();
  const kit = useWatched(session.connection);
  const groove = style?.variants[0];
  return (
    <div className={styles.called}>
      <h2>{title}</h2>
      {groove ? (
        <BarRing
          groove={groove}
          played={NO_MARKS}
          handPlace={undefined}
          size={RING_PIXELS}
          label={`${title} as written`}
        />
      ) : (
        <EmptyRing size={RING_PIXELS} />
      )}
      <p className={styles.itself}>
        {style?.itself ?? "Whatever comes to mind: I will say what I hear, or that it is none I know."}
        {groove && <span className={styles.home}>{homeWords(groove)}</span>}
      </p>
      {kit.state !== "connected" && <NoKit />}
    </div>
  );
}

function homeWords({ metre, tempoBpm }: Groove): string {
  return `${metreName(metre)}, at home from ${tempoBpm.low} to ${tempoBpm.high} a minute.`;
}

function ClickControls({ asked }: { readonly asked: Asked }) {
  const { round } = useProgram();
  return (
    <div className={styles.click}>
      <Toggle isOn={asked.click} onChange={(click) => round.dispatch({ kind: "set", to: { click } })}>
        Click
      </Toggle>
      {asked.click && (
        <>
          <Toggle
            isOn={asked.countIn}
            onChange={(countIn) => round.dispatch({ kind: "set", to: { countIn } })}
          >
            Count in, one bar
          </Toggle>
          <NumberBox
            label="Click, beats a minute"
            value={asked.tempoBpm}
            least={30}
            most={300}
            onChange={(tempoBpm) => round.dispatch({ kind: "set", to: { tempoBpm } })}
          />
        </>
      )}
    </div>
  );
}
