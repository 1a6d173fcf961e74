import { ENTRY_KINDS, kindName, type ShelfFilter, STYLES } from "../../../engine/catalogue/index.ts";
import { LEVELS, levelName } from "../../../engine/score/index.ts";
import { Choice } from "../../theme/index.ts";
import styles from "./Shelf.module.css";

const ANY = "any";
const KINDS = [
  { id: ANY, name: "any kind" },
  ...ENTRY_KINDS.map((id) => ({ id, name: `${kindName(id)}s` })),
] as const;
const STYLE_CHOICES = [{ id: ANY, name: "any style" }, ...STYLES.map(({ id, name }) => ({ id, name }))];
const LEVEL_CHOICES = [
  { id: ANY, name: "any level" },
  ...LEVELS.map((id) => ({ id, name: levelName(id) })),
] as const;
const METRES = [
  { numerator: 4, denominator: 4 },
  { numerator: 3, denominator: 4 },
  { numerator: 2, denominator: 4 },
  { numerator: 5, denominator: 4 },
  { numerator: 6, denominator: 8 },
  { numerator: 7, denominator: 8 },
  { numerator: 9, denominator: 8 },
  { numerator: 12, denominator: 8 },
  { numerator: 2, denominator: 2 },
].map((metre) => ({
  id: `${metre.numerator}/${metre.denominator}`,
  name: `${metre.numerator}/${metre.denominator}`,
  metre,
}));
const METRE_CHOICES = [{ id: ANY, name: "any metre" }, ...METRES];
/** As teachers speak of tempos. Our choice of where one ends and the next begins. */
const TEMPOS = [
  { id: "slow", name: "up to 80", from: 1, to: 80 },
  { id: "middling", name: "80 to 120", from: 80, to: 120 },
  { id: "quick", name: "120 to 160", from: 120, to: 160 },
  { id: "fast", name: "160 and up", from: 160, to: 1000 },
] as const;
const TEMPO_CHOICES = [{ id: ANY, name: "any tempo" }, ...TEMPOS] as const;
const WHOSE = [
  { id: ANY, name: "everything" },
  { id: "own", name: "our own" },
] as const;

/** What the list is narrowed to. */
export function Filters({
  filter,
  onFilter,
}: {
  readonly filter: ShelfFilter;
  readonly onFilter: (filter: ShelfFilter) => void;
}) {
  const { kind, styleId, metre, level, tempoBpm, ownOnly } = filter;
  return (
    <div className={styles.filters}>
      <Choice
        label="Whose"
        options={WHOSE}
        chosen={ownOnly ? "own" : ANY}
        onChoose={(id) => onFilter(without(filter, "ownOnly", id === "own" ? { ownOnly: true } : {}))}
      />
      <Choice
        label="Kind"
        options={KINDS}
        chosen={kind ?? ANY}
        onChoose={(id) => onFilter(without(filter, "kind", id === ANY ? {} : { kind: id }))}
      />
      <Choice
        label="Style"
        options={STYLE_CHOICES}
        chosen={styleId ?? ANY}
        onChoose={(id) => onFilter(without(filter, "styleId", id === ANY ? {} : { styleId: id }))}
      />
      <Choice
        label="Metre"
        options={METRE_CHOICES}
        chosen={metre ? `${metre.numerator}/${metre.denominator}` : ANY}
        onChoose={(id) => {
          const chosen = METRES.find((each) => each.id === id)?.metre;
          onFilter(without(filter, "metre", chosen ? { metre: chosen } : {}));
        }}
      />
      <Choice
        label="Level"
        options={LEVEL_CHOICES}
        chosen={level ?? ANY}
        onChoose={(id) => onFilter(without(filter, "level", id === ANY ? {} : { level: id }))}
      />
      <Choice
        label="At home at"
        options={TEMPO_CHOICES}
        chosen={TEMPOS.find(({ from, to }) => from === tempoBpm?.from && to === tempoBpm.to)?.id ?? ANY}
        onChoose={(id) => {
          const chosen = TEMPOS.find((each) => each.id === id);
          const tempo = chosen ? { tempoBpm: { from: chosen.from, to: chosen.to } } : {};
          onFilter(without(filter, "tempoBpm", tempo));
        }}
      />
    </div>
  );
}

/** The filter with one of its questions asked otherwise, or not at all. */
function without(filter: ShelfFilter, question: keyof ShelfFilter, instead: ShelfFilter): ShelfFilter {
  const { [question]: _, ...others } = filter;
  return { ...others, ...instead };
}
