import { ListBox, ListBoxItem } from "react-aria-components";
import { STYLES, styleById } from "../../../engine/catalogue/index.ts";
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

const FREE = "free";
const RING_PIXELS = 280;
const NO_MARKS: readonly PlayedMark[] = [];

/** Before the take: what is called, and whether there is a click. */
export function Before({ asked }: { readonly asked: Asked }) {
  const { round, session } = useProgram();
  const kit = useWatched(session.connection);
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
      <ListBox
        className={styles.styles ?? ""}
        aria-label="What is called"
        layout="grid"
        selectionMode="single"
        selectionBehavior="replace"
        disallowEmptySelection
        onAction={() => round.start()}
        selectedKeys={[asked.styleId ?? FREE]}
        onSelectionChange={(keys) => {
          const key = keys === "all" ? FREE : [...keys][0];
          round.dispatch({ kind: "called", styleId: key === undefined || key === FREE ? null : String(key) });
        }}
      >
        <ListBoxItem className={styles.style ?? ""} id={FREE} textValue="Free choice">
          Free choice
        </ListBoxItem>
        {STYLES.map(({ id, name }) => (
          <ListBoxItem key={id} className={styles.style ?? ""} id={id} textValue={name}>
            {name}
          </ListBoxItem>
        ))}
      </ListBox>
      <div className={styles.called}>
        {called?.variants[0] ? (
          <BarRing
            groove={called.variants[0]}
            played={NO_MARKS}
            handPlace={undefined}
            size={RING_PIXELS}
            label={`${called.name} as written`}
          />
        ) : (
          <EmptyRing size={RING_PIXELS} />
        )}
        <div>
          <p className={styles.itself}>
            {called
              ? called.itself
              : "Whatever comes to mind: I will say what I hear, or that it is none I know."}
            {called?.variants[0] && <span className={styles.home}>{homeWords(called.variants[0])}</span>}
          </p>
          <ClickControls asked={asked} />
          <div className={styles.go}>
            <Button weight="go" onPress={() => round.start()}>
              Start listening
            </Button>
            <span className={styles.hint}>Space or Enter</span>
          </div>
          {kit.state !== "connected" && <NoKit />}
        </div>
      </div>
    </Page>
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
