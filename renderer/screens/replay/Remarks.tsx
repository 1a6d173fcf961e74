/** What the teacher noted: each remark leads to its moment; it can be worded anew, flagged, taken back, undone. */
import { useEffect, useId, useRef, useState } from "react";
import { LONGEST_REMARK, type RemarkState } from "../../../engine/session/index.ts";
import { Note } from "../../app/Page.tsx";
import { Button, Toggle } from "../../theme/index.ts";
import styles from "./replay.module.css";
import type { OpenLesson, ReplayDesk } from "./replayDesk.ts";
import type { ReplayPlayer } from "./replayPlayer.ts";
import { momentWords } from "./replayWords.ts";

export interface RemarksProps {
  readonly lesson: OpenLesson;
  readonly desk: ReplayDesk;
  readonly player: ReplayPlayer;
  /** The kit a new one is about. */
  readonly lane: number;
  /** Whether a new one is being written. */
  readonly isWriting: boolean;
  readonly onWriting: (isWriting: boolean) => void;
}

export function Remarks({ lesson, desk, player, lane, isWriting, onWriting }: RemarksProps) {
  const { remarks } = lesson.moments.whole;
  const [changed, setChanged] = useState<string | null>(null);
  const canRemark = desk.canRemark(lesson);
  const keep = (remark: RemarkState): void => {
    const { remarkId, ...now } = remark;
    void desk.remark({ remarkId, now });
  };
  return (
    <Note heading="Remarks">
      {remarks.length === 0 && !isWriting && <p>None yet.</p>}
      <ul className={styles.remarks}>
        {remarks.map((remark) =>
          remark.remarkId === changed ? (
            <li key={remark.remarkId}>
              <Wording
                remark={remark}
                onKeep={(next) => {
                  keep(next);
                  setChanged(null);
                }}
                onPutDown={() => setChanged(null)}
              />
            </li>
          ) : (
            <li key={remark.remarkId}>
              <button
                type="button"
                className={styles.moment}
                onClick={() => player.do({ kind: "put", at: remark.time })}
              >
                {momentWords(remark.time, 1)}
              </button>{" "}
              {remark.flagged && <b>Flag. </b>}
              {remark.text}
              {canRemark && (
                <span className={styles.remarkActs}>
                  <Button
                    weight="quiet"
                    aria-label={`Change the remark at ${momentWords(remark.time, 1)}`}
                    onPress={() => setChanged(remark.remarkId)}
                  >
                    Change
                  </Button>
                  <Button
                    weight="quiet"
                    aria-label={`Take back the remark at ${momentWords(remark.time, 1)}`}
                    onPress={() => void desk.remark({ remarkId: remark.remarkId, now: null })}
                  >
                    Take back
                  </Button>
                </span>
              )}
            </li>
          ),
        )}
      </ul>
      {isWriting && (
        <New
          player={player}
          lane={lane}
          onKeep={(now) => {
            keep({ ...now, remarkId: desk.newRemarkId() });
            onWriting(false);
          }}
          onPutDown={() => onWriting(false)}
        />
      )}
      {lesson.trouble !== null && <p role="alert">{lesson.trouble}</p>}
      {canRemark ? (
        <div className={styles.row}>
          {!isWriting && <Button onPress={() => onWriting(true)}>Remark here</Button>}
          {lesson.undo.length > 0 && <Button onPress={() => void desk.undo()}>Undo</Button>}
        </div>
      ) : (
        <p>This lesson is on in another window: remarks are written there, or when it has ended.</p>
      )}
    </Note>
  );
}

/** A new one is about the moment at which it was begun, wherever the cursor goes meanwhile. */
function New({
  player,
  lane,
  onKeep,
  onPutDown,
}: {
  readonly player: ReplayPlayer;
  readonly lane: number;
  readonly onKeep: (remark: Omit<RemarkState, "remarkId">) => void;
  readonly onPutDown: () => void;
}) {
  const [time] = useState(() => player.get().cursor);
  return (
    <Wording
      remark={{ remarkId: "", time, lane, text: "", flagged: false }}
      onKeep={({ remarkId: _, ...now }) => onKeep(now)}
      onPutDown={onPutDown}
    />
  );
}

function Wording({
  remark,
  onKeep,
  onPutDown,
}: {
  readonly remark: RemarkState;
  readonly onKeep: (remark: RemarkState) => void;
  readonly onPutDown: () => void;
}) {
  const id = useId();
  const field = useRef<HTMLTextAreaElement>(null);
  const [text, setText] = useState(remark.text);
  const [flagged, setFlagged] = useState(remark.flagged);
  const isEmpty = text.trim() === "" && !flagged;
  useEffect(() => field.current?.focus(), []);
  const keep = (): void => {
    if (!isEmpty) onKeep({ ...remark, text: text.trim(), flagged });
  };
  return (
    <form
      className={styles.wording}
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      <label htmlFor={id}>At {momentWords(remark.time, 1)}</label>
      <textarea
        ref={field}
        id={id}
        rows={3}
        maxLength={LONGEST_REMARK}
        value={text}
        onChange={({ currentTarget }) => setText(currentTarget.value)}
        onKeyDown={(event) => {
          if (event.key === "Escape") onPutDown();
          if (event.key !== "Enter" || event.shiftKey) return;
          event.preventDefault();
          keep();
        }}
      />
      <Toggle isOn={flagged} onChange={setFlagged}>
        Flag it
      </Toggle>
      <div className={styles.row}>
        <Button type="submit" weight="go" isDisabled={isEmpty}>
          Keep
        </Button>
        <Button onPress={onPutDown}>Put down</Button>
      </div>
    </form>
  );
}
