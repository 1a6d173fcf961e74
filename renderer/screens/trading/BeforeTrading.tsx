import {
  FASTEST_BPM,
  KITS_USED,
  SLOWEST_BPM,
  TIMES,
  type TimeKept,
  TRADED_METRES,
  type TradedMetre,
} from "../../../engine/rounds/index.ts";
import { AIM_NAMES, AIMS, FORM_NAMES, FORMS } from "../../../engine/trading/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useProgram } from "../../app/ProgramContext.tsx";
import { hrefOf } from "../../app/route.ts";
import { useWatched } from "../../session/store.ts";
import { Button, Choice, NumberBox, Toggle } from "../../theme/index.ts";
import { KIT_NAMES } from "./kitNames.ts";
import styles from "./Trading.module.css";

const METRES = Object.keys(TRADED_METRES) as readonly TradedMetre[];

const TIME_NAMES: Readonly<Record<TimeKept, string>> = {
  click: "a click",
  "time-keeper": "a soft time-keeper",
  "first-player": "the first player alone",
};

/** What can be chosen before the round begins; and the round to be watched, without a kit. */
export function BeforeTrading() {
  const { framed } = useLesson();
  const { session } = useProgram();
  const round = framed.trading;
  const wanted = useWatched(round.wanted);
  const second = useWatched(session.secondKit);
  const change = round.wanted.dispatch;
  return (
    <div className={styles.before}>
      <p className={styles.watch}>
        <Button onPress={() => round.show()}>Watch two players trade</Button>
        <span className={styles.soft}>Less than a minute, with sound; no kit is needed.</span>
      </p>
      <div className={styles.choices}>
        <Choice
          label="Form"
          options={FORMS.map((id) => ({ id, name: FORM_NAMES[id] }))}
          chosen={wanted.form}
          onChoose={(form) => change({ form })}
        />
        <Choice
          label="The answer"
          options={AIMS.map((id) => ({ id, name: AIM_NAMES[id] }))}
          chosen={wanted.aim}
          onChoose={(aim) => change({ aim })}
        />
        <Choice
          label="Played on"
          options={KITS_USED.map((id) => ({ id, name: KIT_NAMES[id] }))}
          chosen={wanted.kits}
          onChoose={(kits) => change({ kits })}
        />
        <Choice
          label="Time is kept by"
          options={TIMES.map((id) => ({ id, name: TIME_NAMES[id] }))}
          chosen={wanted.time}
          onChoose={(time) => change({ time })}
        />
        <Choice
          label="Metre"
          options={METRES.filter((id) => id !== "heard" || wanted.time === "first-player").map((id) => ({
            id,
            name: id === "heard" ? "as it is heard" : id,
          }))}
          chosen={wanted.time !== "first-player" && wanted.metre === "heard" ? "4/4" : wanted.metre}
          onChoose={(metre) => change({ metre })}
        />
        <NumberBox
          label="Beats a minute"
          value={wanted.tempoBpm}
          least={SLOWEST_BPM}
          most={FASTEST_BPM}
          onChange={(tempoBpm) => change({ tempoBpm })}
        />
      </div>
      {wanted.form !== "free" && wanted.kits !== "far" && (
        <Toggle isOn={wanted.groove} onChange={(groove) => change({ groove })}>
          Both keep the groove between two exchanges
        </Toggle>
      )}
      {wanted.form === "free" && (
        <p className={styles.soft}>
          {wanted.kits === "with-player"
            ? "Play as long as you like, then pass on: the one who is not there begins with the next bar, and plays as long."
            : "Whoever begins to play has the turn; on one kit, or without a stroke, it is passed on by hand."}
        </p>
      )}
      {wanted.time === "first-player" && (
        <p className={styles.soft}>
          The first player begins, with an upbeat or on the one, about as fast as it says above; after five to
          seven beats the pulse is heard. What is not sure of it is said.
        </p>
      )}
      {wanted.kits === "two" && second.state === "none" && (
        <p>
          There is no second kit yet. <a href={hrefOf("kit")}>Choose its input in Kit</a>, or trade on one kit
          by turns.
        </p>
      )}
      {wanted.kits === "far" && (
        <p className={styles.soft}>
          Both <a href={hrefOf("kit", "room")}>join a room</a> and begin the round here; then one of you
          begins a form, and it begins at both places. What is struck there sounds here half a bar or a bar
          later, by what was measured: the form leaves room for that. Each place keeps its own time.
        </p>
      )}
    </div>
  );
}
