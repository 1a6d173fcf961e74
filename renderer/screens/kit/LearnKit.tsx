import { useEffect, useReducer, useRef } from "react";
import {
  type Learning,
  learntMap,
  NEW_LEARNING,
  skipped,
  struck,
  VOICES_TO_LEARN,
  voiceAsked,
  voiceName,
} from "../../../engine/kit/index.ts";
import type { HeardKit } from "../../session/heardKit.ts";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import styles from "./Kit.module.css";

type LearnEvent =
  | { readonly kind: "struck"; readonly note: number }
  | { readonly kind: "skipped" }
  | { readonly kind: "again" };

function learningAfter(learning: Learning, event: LearnEvent): Learning {
  switch (event.kind) {
    case "struck":
      return struck(learning, event.note);
    case "skipped":
      return skipped(learning);
    case "again":
      return NEW_LEARNING;
  }
}

/** Learning a map by being hit: the voice is named, the player strikes it. */
export function LearnKit({ kit, onEnd }: { readonly kit: HeardKit; readonly onEnd: () => void }) {
  const { map } = useWatched(kit.kitMap);
  const [learning, dispatch] = useReducer(learningAfter, NEW_LEARNING);

  // The button that opened this is gone: the keyboard, and what is read aloud, go on here.
  const lesson = useRef<HTMLElement>(null);
  useEffect(() => lesson.current?.focus(), []);

  // A pad that is a command is a pad like any other while it is learnt.
  useEffect(() => kit.withoutCommands(), [kit]);

  useEffect(() => {
    return kit.log.hear((fresh) => {
      for (const { pad } of fresh) dispatch({ kind: "struck", note: pad });
    });
  }, [kit]);

  const asked = voiceAsked(learning);
  const keep = (): void => {
    kit.kitMap.learn(learntMap(learning, "This kit, as learnt", map));
    onEnd();
  };
  return (
    <section ref={lesson} tabIndex={-1} className={styles.learn} aria-label="Learn this kit">
      <div role="status">
        <p className={styles.say}>{asked ? `Strike the ${voiceName(asked)}.` : "That is the whole kit."}</p>
        <p>{progressWords(learning)}</p>
      </div>
      <div className={styles.choices}>
        {asked && <Button onPress={() => dispatch({ kind: "skipped" })}>This kit has none</Button>}
        <Button weight={asked ? "plain" : "go"} isDisabled={learning.learnt.length === 0} onPress={keep}>
          Keep what is learnt
        </Button>
        <Button onPress={() => dispatch({ kind: "again" })}>Start again</Button>
        <Button weight="quiet" onPress={onEnd}>
          Leave the map as it was
        </Button>
      </div>
    </section>
  );
}

function progressWords(learning: Learning): string {
  const { refused, learnt, asked } = learning;
  if (refused)
    return `That pad is the ${voiceName(refused.voice)} already. Strike another, or say that this kit has none.`;
  const last = learnt.at(-1);
  const so = last ? `Key ${last.note} is the ${voiceName(last.voice)}. ` : "";
  return `${so}${asked} of ${VOICES_TO_LEARN.length} asked, ${learnt.length} learnt.`;
}
