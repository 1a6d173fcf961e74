import { FileTrigger } from "react-aria-components";
import { STYLES } from "../../engine/catalogue/index.ts";
import { useProgram } from "../app/ProgramContext.tsx";
import { useWatched } from "../session/store.ts";
import { Button, Choice, NumberBox, Toggle } from "../theme/index.ts";
import styles from "./DemonstrationPanel.module.css";

/** Lets the program play a groove, or a MIDI file, as if the kit were played. */
export function DemonstrationPanel() {
  const { session, demonstration, sound } = useProgram();
  const player = useWatched(session.demonstration);
  const { asked, file, trouble } = useWatched(demonstration);
  const { drumsOn, trouble: soundTrouble } = useWatched(sound);
  return (
    <section className={styles.panel} aria-label="Demonstration">
      <h2>Demonstration</h2>
      <Choice
        label="Style to play"
        options={STYLES}
        chosen={asked.styleId}
        onChoose={(styleId) => demonstration.ask({ styleId })}
      />
      <NumberBox
        label="Tempo, beats a minute"
        value={asked.tempoBpm}
        least={30}
        most={300}
        onChange={(tempoBpm) => demonstration.ask({ tempoBpm })}
      />
      <div className={styles.pair}>
        <NumberBox
          label="Bars"
          value={asked.bars}
          least={1}
          most={400}
          onChange={(bars) => demonstration.ask({ bars })}
        />
        <NumberBox
          label="Seed"
          isStepped={false}
          value={asked.seed}
          least={0}
          most={9999}
          onChange={(seed) => demonstration.ask({ seed })}
        />
      </div>
      <div className={styles.row}>
        {player.state === "playing" ? (
          <Button onPress={() => session.demonstration.stop()}>Stop playing</Button>
        ) : (
          <Button onPress={() => demonstration.playGroove()}>Play</Button>
        )}
        <FileTrigger
          acceptedFileTypes={[".mid", ".midi", "audio/midi"]}
          onSelect={(files) => {
            const chosen = files?.[0];
            if (chosen) void demonstration.takeFile(chosen);
          }}
        >
          <Button weight="quiet">MIDI file</Button>
        </FileTrigger>
      </div>
      {file && (
        <div>
          <p className={styles.file}>{file.title}</p>
          <div className={styles.row}>
            <Button onPress={() => demonstration.playFile("at true speed")}>Play it</Button>
            <Button weight="quiet" onPress={() => demonstration.playFile("at once")}>
              all at once
            </Button>
          </div>
        </div>
      )}
      <p role="status">{playerWords(player)}</p>
      {trouble !== null && (
        <p role="alert" className={styles.trouble}>
          {trouble}
        </p>
      )}
      <Toggle isOn={drumsOn} onChange={(on) => void sound.turnDrums(on)}>
        Drum sounds, for keys and demonstration
      </Toggle>
      {soundTrouble !== undefined && (
        <p role="alert" className={styles.trouble}>
          {soundTrouble}
        </p>
      )}
    </section>
  );
}

function playerWords(
  player: ReturnType<ReturnType<typeof useProgram>["session"]["demonstration"]["get"]>,
): string {
  switch (player.state) {
    case "silent":
      return "";
    case "playing":
      return `Playing ${player.title}, ${lengthWords(player.seconds)}.`;
    case "played":
      return `${player.title} was played: ${player.strokes} strokes.`;
  }
}

/** "45 seconds", "21 minutes". */
function lengthWords(seconds: number): string {
  return seconds < 100 ? `${Math.round(seconds)} seconds` : `${Math.round(seconds / 60)} minutes`;
}
