import { useEffect, useRef, useSyncExternalStore } from "react";
import type { Person } from "../../../../engine/rooms/index.ts";
import { useRoom } from "../../../app/useRoom.ts";
import { lastVoice } from "../../../room/farKits.ts";
import { Button } from "../../../theme/index.ts";
import styles from "../../kit/room/room.module.css";
import { clockWords, strikesWords, wayWords } from "../../kit/room/roomWords.ts";
import { VoiceMarks } from "../../kit/VoiceMarks.tsx";
import { clearnessWords, heardWords, leanWords, voicesWords } from "./labWords.ts";

/** One kit of the lab, as it is struck. */
export function OpenKit({ person, onClose }: { readonly person: Person; readonly onClose: () => void }) {
  const room = useRoom();
  const kit = useSyncExternalStore(room.kits.subscribe, () => room.kits.of(person.id));
  const last = lastVoice(kit);
  const place = useRef<HTMLElement>(null);
  // It stands above the table: opened from a row far down, it would be out of sight.
  useEffect(() => {
    place.current?.scrollIntoView({ block: "nearest" });
  }, []);
  return (
    <section ref={place} className={`${styles.part} ${styles.far}`}>
      <h2>{person.shownName}</h2>
      <p className={styles.say}>
        Plays: {heardWords(person)}. Lean: {leanWords(person)}. Spread: {clearnessWords(person)}. Voices:{" "}
        {voicesWords(person)}.
      </p>
      <VoiceMarks
        latest={kit.latest}
        now={kit.now}
        left={<p>{last === null ? "Nothing was struck yet." : `Last struck: ${last}.`}</p>}
        right={
          <p className={styles.soft}>
            {strikesWords(person)}; one way {person.clock === null ? "–" : wayWords(person.clock.oneWay)},
            clock known {clockWords(person)}.
          </p>
        }
      />
      <div className={styles.after}>
        <Button autoFocus onPress={onClose}>
          Close this kit
        </Button>
      </div>
    </section>
  );
}
