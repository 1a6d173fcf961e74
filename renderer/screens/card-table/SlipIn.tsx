import { useState } from "react";
import { bareName, RHYTHMS, RUDIMENTS, SIGNS } from "../../../engine/catalogue/index.ts";
import { type CardId, cardName } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { Note } from "../../app/Page.tsx";
import { useWatched } from "../../session/store.ts";
import { Choice } from "../../theme/index.ts";

const ALL: readonly CardId[] = [
  ...[...SIGNS, ...RHYTHMS].map(({ id }): CardId => `symbol:${id}`),
  ...RUDIMENTS.map(({ id }): CardId => `sticking:${id}`),
];

/** The teacher slips in a card that is known to be new: it comes next. */
export function SlipIn() {
  const { framed } = useLesson();
  const round = framed["card-table"];
  const { naming } = useWatched(round.settings);
  const [slipped, setSlipped] = useState<string | null>(null);
  const options = ALL.map((id) => ({
    id,
    name: id.startsWith("sticking:") ? `${cardName(id, naming)}, the hands` : cardName(id, naming),
  })).sort((a, b) => (bareName(a.name) < bareName(b.name) ? -1 : 1));
  return (
    <Note heading="Slip in a new card">
      <Choice
        label="It comes next"
        options={options}
        chosen={null}
        onChoose={(id) => {
          round.slipIn(id);
          setSlipped(options.find((each) => each.id === id)?.name ?? null);
        }}
      />
      {/* The student may look on: what was slipped in is told to who cannot see the list close, and not on the wall. */}
      <p role="status">{slipped !== null && "Slipped in. It is the next card."}</p>
    </Note>
  );
}
