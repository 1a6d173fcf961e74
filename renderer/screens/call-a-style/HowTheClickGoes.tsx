import { ToggleButton, ToggleButtonGroup } from "react-aria-components";
import type { Asked } from "../../../engine/rounds/index.ts";
import {
  beatsPerBar,
  type ClickGaps,
  type ClickWay,
  groupingsOf,
  groupStarts,
  groupsName,
  LONGEST_GAP_BARS,
  type Metre,
  metreName,
} from "../../../engine/score/index.ts";
import { useProgram } from "../../app/ProgramContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Choice, NumberBox } from "../../theme/index.ts";
import styles from "./HowTheClickGoes.module.css";
import { metreOfCalled } from "./styleRound.ts";

/** Metres a free choice can be clicked in, as they are met; others come with the style that is called. */
const METRES: readonly ClickWay["metre"][] = [
  { numerator: 2, denominator: 4 },
  { numerator: 3, denominator: 4 },
  { numerator: 4, denominator: 4 },
  { numerator: 5, denominator: 4 },
  { numerator: 6, denominator: 4 },
  { numerator: 7, denominator: 4 },
  { numerator: 5, denominator: 8 },
  { numerator: 6, denominator: 8 },
  { numerator: 7, denominator: 8 },
  { numerator: 8, denominator: 8 },
  { numerator: 9, denominator: 8 },
  { numerator: 10, denominator: 8 },
  { numerator: 11, denominator: 8 },
  { numerator: 12, denominator: 8 },
  { numerator: 13, denominator: 8 },
];

const EVERY = [
  { id: "accents", name: "only the beats that stand out", every: "accents" },
  { id: "1", name: "each beat", every: 1 },
  { id: "2", name: "two to a beat", every: 2 },
  { id: "3", name: "three to a beat", every: 3 },
  { id: "4", name: "four to a beat", every: 4 },
] as const;

/** Metre, subdivision, accents and gaps of the click: set once, then out of sight. */
export function HowTheClickGoes({ asked }: { readonly asked: Asked }) {
  const { session } = useProgram();
  const { trouble } = useWatched(session.click);
  const called = metreOfCalled(asked.styleId, asked.shelfGroove);
  const way = session.click.wayIn(called);
  return (
    <details className={styles.fold}>
      <summary>
        <h2>How the click goes</h2>
      </summary>
      <div className={styles.controls}>
        {called === undefined && (
          <Choice
            label="Metre"
            options={METRES.map((metre) => ({ id: metreName(metre), name: metreName(metre) }))}
            chosen={metreName(way.metre)}
            onChoose={(name) => {
              const metre = METRES.find((each) => metreName(each) === name);
              if (metre) session.click.set({ metre });
            }}
          />
        )}
        <Choice
          label="Strokes"
          options={EVERY}
          chosen={EVERY.find(({ every }) => every === way.every)?.id ?? null}
          onChoose={(id) => {
            const chosen = EVERY.find((each) => each.id === id);
            if (chosen) session.click.set({ every: chosen.every });
          }}
        />
        <Accents way={way} onChange={(accents) => session.click.setAccents(way.metre, accents)} />
        <Gaps gaps={way.gaps} onChange={(gaps) => session.click.set({ gaps })} />
        {trouble !== undefined && (
          <p role="alert" className="trouble">
            {trouble}
          </p>
        )}
      </div>
    </details>
  );
}

function Accents({
  way: { metre, accents },
  onChange,
}: {
  readonly way: ClickWay;
  readonly onChange: (accents: readonly number[]) => void;
}) {
  const groupings = groupingsOf(metre).map((grouping) => ({
    name: groupsName(grouping),
    starts: groupStarts(grouping),
  }));
  const chosen = groupings.find(({ starts }) => starts.join() === accents.join());
  return (
    <>
      {groupings.length > 0 && (
        <Choice
          label="Counted in groups"
          options={groupings.map(({ name }) => ({ id: name, name }))}
          chosen={chosen?.name ?? null}
          onChoose={(name) => {
            const grouping = groupings.find((each) => each.name === name);
            if (grouping) onChange(grouping.starts);
          }}
        />
      )}
      <div>
        <p id="beats-that-stand-out">Beats that stand out</p>
        <ToggleButtonGroup
          className={styles.beats ?? ""}
          aria-labelledby="beats-that-stand-out"
          selectionMode="multiple"
          selectedKeys={accents.map(String)}
          onSelectionChange={(keys) => onChange([...keys].map(Number))}
        >
          {beatsOf(metre).map((beat) => (
            <ToggleButton key={beat} id={String(beat)} className={styles.beat ?? ""}>
              {beat}
            </ToggleButton>
          ))}
        </ToggleButtonGroup>
      </div>
    </>
  );
}

function beatsOf(metre: Metre): readonly number[] {
  return Array.from({ length: beatsPerBar(metre) }, (_, at) => at + 1);
}

const GAPS = [
  { id: "none", name: "never" },
  { id: "regular", name: "regularly" },
  { id: "chance", name: "by chance" },
] as const;

/** What each kind of gap begins with. Our choice: enough bars to fall in, few enough to come back. */
const FIRST_GAPS: Readonly<Record<ClickGaps["kind"], ClickGaps>> = {
  none: { kind: "none" },
  regular: { kind: "regular", sounding: 2, silent: 2 },
  chance: { kind: "chance", share: 0.25, longest: 2, seed: 0 },
};

function Gaps({
  gaps,
  onChange,
}: {
  readonly gaps: ClickGaps;
  readonly onChange: (gaps: ClickGaps) => void;
}) {
  return (
    <>
      <Choice
        label="Falls silent for whole bars"
        options={GAPS}
        chosen={gaps.kind}
        onChoose={(kind) => onChange(FIRST_GAPS[kind])}
      />
      {gaps.kind === "regular" && (
        <>
          <NumberBox
            label="Bars that sound"
            value={gaps.sounding}
            least={1}
            most={LONGEST_GAP_BARS}
            onChange={(sounding) => onChange({ ...gaps, sounding })}
          />
          <NumberBox
            label="Bars of silence"
            value={gaps.silent}
            least={1}
            most={LONGEST_GAP_BARS}
            onChange={(silent) => onChange({ ...gaps, silent })}
          />
        </>
      )}
      {gaps.kind === "chance" && (
        <>
          <NumberBox
            label="After how many bars in 100"
            value={Math.round(gaps.share * 100)}
            least={5}
            most={100}
            onChange={(hundredths) => onChange({ ...gaps, share: hundredths / 100 })}
          />
          <NumberBox
            label="Bars of silence, at most"
            value={gaps.longest}
            least={1}
            most={LONGEST_GAP_BARS}
            onChange={(longest) => onChange({ ...gaps, longest })}
          />
        </>
      )}
      {gaps.kind !== "none" && <p>What happened in the silence is told with the report.</p>}
    </>
  );
}
