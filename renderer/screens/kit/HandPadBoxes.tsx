import { useEffect, useState } from "react";
import { type KitMap, padFor, voiceName } from "../../../engine/kit/index.ts";
import type { Hand } from "../../../engine/score/index.ts";
import type { NoteNumber } from "../../../engine/units/index.ts";
import { Note } from "../../app/Page.tsx";
import { useProgram } from "../../app/ProgramContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";

const HANDS: readonly { readonly hand: Hand; readonly name: string }[] = [
  { hand: "L", name: "Left hand" },
  { hand: "R", name: "Right hand" },
];

/** Which pad each hand has when a sticking is played: set by being struck. */
export function HandPadBoxes() {
  const { hands, session } = useProgram();
  const pads = useWatched(hands);
  const { map } = useWatched(session.kits[0].kitMap);
  const [asked, setAsked] = useState<Hand | null>(null);
  const [isRefused, setIsRefused] = useState(false);
  useEffect(() => {
    if (asked === null) return;
    const { log } = session.listened.get();
    const from = log.get();
    return log.subscribe(() => {
      const [hit] = log.hitsSince(from);
      if (!hit) return;
      const isSet = hands.set(asked, hit.pad);
      setIsRefused(!isSet);
      setAsked(null);
    });
  }, [asked, hands, session]);
  return (
    <Note heading="A pad for each hand">
      <p>For stickings in Wall Chart. On one pad it cannot be told which hand struck.</p>
      {HANDS.map(({ hand, name }) => (
        <p key={hand}>
          {name}: {padWords(pads[hand], map)}.{" "}
          <Button
            weight="quiet"
            onPress={() => {
              setIsRefused(false);
              setAsked(asked === hand ? null : hand);
            }}
          >
            {asked === hand ? "Leave it" : `Set the ${name.toLowerCase()}`}
          </Button>
        </p>
      ))}
      <p role="status">
        {asked !== null && `Strike the pad of the ${asked === "L" ? "left" : "right"} hand.`}
        {isRefused && "That is the other hand’s pad already. Strike another one."}
      </p>
    </Note>
  );
}

function padWords(pad: NoteNumber | null, map: KitMap): string {
  if (pad === null) return "not set";
  const named = padFor(map, pad);
  return named ? `${voiceName(named.voice)}, note ${pad}` : `note ${pad}`;
}
