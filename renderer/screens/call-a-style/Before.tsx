import { useMemo } from "react";
import { type Style, styleById } from "../../../engine/catalogue/index.ts";
import type { Asked } from "../../../engine/rounds/index.ts";
import { type Groove, metreName } from "../../../engine/score/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { Note, Page } from "../../app/Page.tsx";
import { BarRing, type PlayedMark } from "../../charts/BarRing.tsx";
import { Staff, writtenStaff } from "../../notation/index.ts";
import { DemonstrationPanel } from "../../players/DemonstrationPanel.tsx";
import { Button } from "../../theme/index.ts";
import { NoKit } from "../kit/NoKit.tsx";
import styles from "./CallAStyle.module.css";
import { ClickControls } from "./ClickControls.tsx";
import { EmptyRing } from "./EmptyRing.tsx";
import { HowTheClickGoes } from "./HowTheClickGoes.tsx";
import { writtenGroove } from "./liveRing.ts";
import { askedTitle } from "./roundWords.ts";
import { StyleList } from "./StyleList.tsx";
import { useNextStyle } from "./useNextStyle.ts";

const RING_PIXELS = 280;
const STAFF_SPACE = 8;
const NO_MARKS: readonly PlayedMark[] = [];

/** Before the take: what is called, and whether there is a click. */
export function Before({ asked }: { readonly asked: Asked }) {
  const { round } = useLesson();
  const next = useNextStyle(round);
  const called = asked.styleId === null ? undefined : styleById(asked.styleId);
  return (
    <Page
      title="Call a Style"
      sub="Call one, or leave the choice to the player. Then listen."
      margin={
        <>
          {asked.click && <HowTheClickGoes asked={asked} />}
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
        <Called style={called} groove={writtenGroove(asked)} title={askedTitle(asked)} />
      </div>
      <div className={`${styles.go} ${styles.next}`}>
        <Button weight="go" onPress={() => round.start()}>
          Start listening
        </Button>
        <span className={styles.hint}>Space or Enter</span>
        {next && (
          <>
            <Button onPress={next.act}>{next.words}</Button>
            <kbd>N</kbd>
          </>
        )}
        <ClickControls asked={asked} />
      </div>
    </Page>
  );
}

/** What is called: its name, the bar as it is written, and what makes it itself. */
function Called({
  style,
  groove,
  title,
}: {
  /** `undefined` for a free choice, and for a groove of the Shelf. */
  readonly style: Style | undefined;
  readonly groove: Groove | undefined;
  readonly title: string;
}) {
  const staves = useMemo(() => groove && writtenStaff(groove), [groove]);
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
      {staves && <Staff staves={staves} label={`${title} on the staff`} space={STAFF_SPACE} leastSpace={7} />}
      <p className={styles.itself}>
        {style?.itself ?? (groove ? OF_THE_SHELF : FREE_CHOICE)}
        {groove && <span className={styles.home}>{homeWords(groove)}</span>}
      </p>
      <NoKit />
    </div>
  );
}

const FREE_CHOICE = "Whatever comes to mind: I will say what I hear, or that it is none I know.";
const OF_THE_SHELF = "A groove of the studio’s own Shelf.";

function homeWords({ metre, tempoBpm }: Groove): string {
  return `${metreName(metre)}, at home from ${tempoBpm.low} to ${tempoBpm.high} a minute.`;
}
