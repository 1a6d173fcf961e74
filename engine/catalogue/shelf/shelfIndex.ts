/**
 * Finding entries among many: by any of their names, whatever the case, the accents and a slip of the finger, and
 * by what they are.
 */
import MiniSearch from "minisearch";
import { type Metre, metreName } from "../../score/index.ts";
import type { Bpm } from "../../units/index.ts";
import { styleById } from "../styles.ts";
import type { ShelfEntry } from "./entry.ts";
import { ENTRY_KINDS } from "./written.ts";

/** What is asked of an entry; left out, anything goes. */
export interface ShelfFilter {
  readonly kind?: ShelfEntry["kind"];
  readonly styleId?: string;
  readonly metre?: Metre;
  readonly level?: NonNullable<ShelfEntry["level"]>;
  /** At home at one of these tempos. */
  readonly tempoBpm?: { readonly from: Bpm; readonly to: Bpm };
  /** Only what the studio put there itself. */
  readonly ownOnly?: boolean;
}

/**
 * A name as it is compared: without case and accents.
 *
 * @example
 * bareName(" Baião ") // => "baiao"
 */
export function bareName(name: string): string {
  return name
    .normalize("NFD")
    .replaceAll(/\p{Diacritic}/gu, "")
    .toLowerCase()
    .trim();
}

/** Words shorter than this must be typed right: every other short word is one letter away. Our choice. */
const SHORTEST_FORGIVEN = 4;
/** Letters that may be wrong, as a share of the word. Our choice: one in five. */
const FORGIVEN_SHARE = 0.2;

/** Words that half of all names have tell nothing. */
const SMALL_WORDS = new Set("a an and at by for from in of on the to with".split(" "));
const SPACES_AND_SIGNS = /[^\p{L}\p{N}\p{M}]+/u;

/** A word as it is looked up; `null` for one that tells nothing. */
function termOf(word: string): string | null {
  const bare = bareName(word);
  return bare === "" || SMALL_WORDS.has(bare) ? null : bare;
}

/** Entries by id, in order of kind (grooves first, as they are sought most) and of name, and the words they are found by. */
export class ShelfIndex {
  readonly #byId = new Map<string, ShelfEntry>();
  /** In order of kind, then of bare name, then of id. */
  #inOrder: { readonly key: string; readonly entry: ShelfEntry }[] = [];
  readonly #ofName = new Map<string, Set<string>>();
  readonly #words = new MiniSearch<ShelfEntry>({
    fields: ["name", "alsoNamed", "style"],
    tokenize: (text) => text.split(SPACES_AND_SIGNS),
    extractField: (entry, field) => wordsOf(entry, field),
    processTerm: termOf,
    searchOptions: {
      combineWith: "AND",
      prefix: true,
      fuzzy: (term) => (term.length < SHORTEST_FORGIVEN ? false : FORGIVEN_SHARE),
      boost: { name: 3, alsoNamed: 3 },
    },
  });

  constructor(entries: readonly ShelfEntry[] = []) {
    this.addAll(entries);
  }

  get size(): number {
    return this.#byId.size;
  }

  get(id: string): ShelfEntry | undefined {
    return this.#byId.get(id);
  }

  /** All entries: grooves, fills, phrases, drum parts, each in order of name. */
  all(): readonly ShelfEntry[] {
    return this.#inOrder.map(({ entry }) => entry);
  }

  /** Adds many entries at once. Ids must be new. */
  addAll(entries: readonly ShelfEntry[]): void {
    for (const entry of entries) this.#know(entry);
    this.#words.addAll(entries);
    this.#inOrder = [...this.#inOrder, ...entries.map(keyed)].sort(byKey);
  }

  /** Adds an entry, or puts it in the place of the one with its id. */
  put(entry: ShelfEntry): void {
    this.remove(entry.id);
    this.#know(entry);
    this.#words.add(entry);
    const placed = keyed(entry);
    this.#inOrder.splice(this.#placeOf(placed), 0, placed);
  }

  /** Takes an entry out; does nothing where there is none. */
  remove(id: string): void {
    const entry = this.#byId.get(id);
    if (!entry) return;
    this.#byId.delete(id);
    this.#words.remove(entry);
    this.#inOrder.splice(this.#placeOf(keyed(entry)), 1);
    for (const name of namesOf(entry)) this.#ofName.get(name)?.delete(id);
  }

  /** Another entry that goes by this name; `undefined` where there is none. */
  otherOfName(name: string, exceptId: string | null): ShelfEntry | undefined {
    const ids = this.#ofName.get(bareName(name)) ?? [];
    const other = [...ids].find((id) => id !== exceptId);
    return other === undefined ? undefined : this.#byId.get(other);
  }

  /**
   * The entries that are meant, the best first; in order of kind and name where nothing was typed. Slips are forgiven only where
   * nothing is found by what was typed: who types right is not shown what sounds alike.
   *
   * @example
   * new ShelfIndex(stockEntries()).find("bosa", {})[0]?.name // => "Bossa nova"
   */
  find(typed: string, filter: ShelfFilter): readonly ShelfEntry[] {
    const passes = filterOf(filter);
    if (!typed.split(SPACES_AND_SIGNS).some((word) => termOf(word) !== null))
      return this.all().filter(passes);
    const asTyped = this.#words.search(typed, { fuzzy: false });
    const found = asTyped.length > 0 ? asTyped : this.#words.search(typed);
    return found.flatMap(({ id }) => {
      const entry = this.#byId.get(String(id));
      return entry && passes(entry) ? [entry] : [];
    });
  }

  #know(entry: ShelfEntry): void {
    this.#byId.set(entry.id, entry);
    for (const name of namesOf(entry)) {
      const ids = this.#ofName.get(name) ?? new Set();
      this.#ofName.set(name, ids.add(entry.id));
    }
  }

  /** Where it stands, or would. */
  #placeOf(placed: Keyed): number {
    let [from, to] = [0, this.#inOrder.length];
    while (from < to) {
      const middle = (from + to) >> 1;
      const at = this.#inOrder[middle];
      if (at && byKey(at, placed) < 0) from = middle + 1;
      else to = middle;
    }
    return from;
  }
}

interface Keyed {
  readonly key: string;
  readonly entry: ShelfEntry;
}

function keyed(entry: ShelfEntry): Keyed {
  return { key: `${ENTRY_KINDS.indexOf(entry.kind)}\n${bareName(entry.name)}\n${entry.id}`, entry };
}

function byKey(a: Keyed, b: Keyed): number {
  return a.key < b.key ? -1 : a.key > b.key ? 1 : 0;
}

function namesOf(entry: ShelfEntry): readonly string[] {
  return [entry.name, ...entry.alsoNamed].map(bareName);
}

function wordsOf(entry: ShelfEntry, field: string): string {
  switch (field) {
    case "id":
      return entry.id;
    case "name":
      return entry.name;
    case "alsoNamed":
      return entry.alsoNamed.join(" ");
    default:
      return entry.styleId === null ? "" : (styleById(entry.styleId)?.name ?? "");
  }
}

function filterOf(filter: ShelfFilter): (entry: ShelfEntry) => boolean {
  const { kind, styleId, metre, level, tempoBpm, ownOnly } = filter;
  const metreAsked = metre && metreName(metre);
  return (entry) =>
    (kind === undefined || entry.kind === kind) &&
    (styleId === undefined || entry.styleId === styleId) &&
    (metreAsked === undefined || metreName(entry.metre) === metreAsked) &&
    (level === undefined || entry.level === level) &&
    (tempoBpm === undefined || (entry.tempoBpm.low <= tempoBpm.to && entry.tempoBpm.high >= tempoBpm.from)) &&
    (ownOnly !== true || entry.from.kind !== "catalogue");
}
