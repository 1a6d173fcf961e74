/**
 * An entry while it is open: what was kept, what was changed since, and the way back, change by change. The text is
 * what counts; strokes set on the grid are written into it.
 */
import {
  bodyInBars,
  bodyOf,
  type EntryKind,
  inBars,
  musicOf,
  readBody,
  type ShelfEntry,
  shelfEntry,
  type Written,
} from "../../../engine/catalogue/index.ts";
import { GridError, type Groove, type Level } from "../../../engine/score/index.ts";

/** What can be changed of an entry. */
export interface Changeable {
  readonly name: string;
  /** Other names, one a line. */
  readonly alsoNamed: string;
  readonly styleId: string | null;
  readonly level: Level | null;
  /** The grid text without id and name. */
  readonly body: string;
}

export interface Draft {
  readonly id: string;
  readonly kind: EntryKind;
  readonly from: ShelfEntry["from"];
  readonly madeAtMs: number;
  /** As it was last kept; `null` while it never was. */
  readonly kept: Changeable | null;
  readonly now: Changeable;
  /** The last of the texts that could be read. */
  readonly written: Written;
  /** Why the text as it stands cannot be read. */
  readonly problem: { readonly words: string; readonly line: number; readonly column: number } | null;
  readonly past: readonly Changeable[];
  readonly future: readonly Changeable[];
  /** What was changed last: letters typed one after the other are one change. */
  readonly lastField: keyof Changeable | null;
}

/** Steps back that are remembered. Our choice. */
const MOST_STEPS = 200;

/** A kept entry, opened. @throws GridError when its text cannot be read. */
export function opened(entry: ShelfEntry): Draft {
  const written = musicOf(entry);
  const now: Changeable = {
    name: entry.name,
    alsoNamed: entry.alsoNamed.join("\n"),
    styleId: entry.styleId,
    level: entry.level,
    body: bodyOf(written),
  };
  const { id, kind, from, madeAtMs } = entry;
  return { ...begun({ id, kind, from, madeAtMs }, now, written), kept: now };
}

/** A new entry, not kept yet. */
export function begun(
  about: Pick<Draft, "id" | "kind" | "from" | "madeAtMs">,
  now: Changeable,
  written: Written,
): Draft {
  return { ...about, kept: null, now, written, problem: null, past: [], future: [], lastField: null };
}

/** What a new entry begins with: a bar of eighths, to be written over. */
const FIRST_BODIES: Readonly<Record<EntryKind, string>> = {
  groove: `metre: 4/4
feel: straight
tempo: 80-120

hi-hat-closed | x.x. x.x. x.x. x.x. |
snare         | .... x... .... x... |
kick          | x... .... x... .... |
`,
  fill: `level: first-year
metre: 4/4
feel: straight
tempo: 60-120

snare | .... .... x.x. xxxx |
`,
  phrase: `role: call
metre: 4/4
feel: straight
tempo: 70-120

snare | x... x... x.x. x... |
`,
  part: `section: Verse
tempo: 96
play: eighths, 7 bars
play: eighths, 1 bar, ending turn

groove: eighths
name: Eighths
metre: 4/4
tempo: 80-120
hi-hat-closed | x.x. x.x. x.x. x.x. |
snare         | .... x... .... x... |
kick          | x... .... x... .... |

fill: turn
name: Turn
level: first-year
metre: 4/4
tempo: 80-120
snare | .... .... x.x. xxxx |
`,
};

/** A blank one of a kind. */
export function blank(kind: EntryKind, about: Pick<Draft, "id" | "madeAtMs">): Draft {
  const body = FIRST_BODIES[kind];
  const written = readBody(kind, body, { id: about.id, name: "new" });
  const level = written.kind === "fill" ? written.music.level : null;
  const now = { name: "", alsoNamed: "", styleId: null, level, body };
  return begun({ ...about, kind, from: { kind: "written" } }, now, written);
}

/** A copy of what is open, as a new entry. */
export function copied(draft: Draft, about: Pick<Draft, "id" | "madeAtMs">): Draft {
  const name = `${draft.now.name}, copy`;
  const from = { kind: "copied", of: draft.id, name: draft.now.name } as const;
  return begun({ ...about, kind: draft.kind, from }, { ...draft.now, name, alsoNamed: "" }, draft.written);
}

/** The draft after a change; the way back leads over it. */
export function changed(draft: Draft, change: Partial<Changeable>): Draft {
  const now = { ...draft.now, ...change };
  const [field] = fieldsOf(change);
  const goesOn = field !== undefined && draft.lastField === field && isLetterMore(draft.now, now, field);
  const past = goesOn ? draft.past : [...draft.past, draft.now].slice(-MOST_STEPS);
  return { ...read({ ...draft, now }), past, future: [], lastField: field ?? null };
}

/** The draft with other strokes, laid out in whole bars. */
export function withBars(draft: Draft, change: (bars: Groove) => Groove): Draft {
  const bars = inBars(draft.written);
  const after = change(bars);
  if (after === bars) return draft;
  return { ...changed(draft, { body: bodyInBars(draft.written, after) }), lastField: null };
}

/** The draft at another level; that of a fill stands in its text. */
export function withLevel(draft: Draft, level: Level | null): Draft {
  if (draft.kind !== "fill") return changed(draft, { level });
  if (level === null) return draft;
  const line = /^[ \t]*level[ \t]*:.*$/m;
  const { body } = draft.now;
  return changed(draft, {
    body: line.test(body) ? body.replace(line, `level: ${level}`) : `level: ${level}\n${body}`,
  });
}

export function undone(draft: Draft): Draft {
  const now = draft.past.at(-1);
  if (!now) return draft;
  const past = draft.past.slice(0, -1);
  return { ...read({ ...draft, now }), past, future: [draft.now, ...draft.future], lastField: null };
}

export function redone(draft: Draft): Draft {
  const [now, ...future] = draft.future;
  if (!now) return draft;
  return { ...read({ ...draft, now }), past: [...draft.past, draft.now], future, lastField: null };
}

/** Whether something would be lost if the draft were. */
export function isChanged({ kept, now }: Draft): boolean {
  return kept === null || fieldsOf(now).some((field) => kept[field] !== now[field]);
}

/**
 * The entry to be kept.
 *
 * @throws GridError when the text cannot be read, EntryError when a name cannot be kept.
 */
export function entryOf({ id, kind, from, madeAtMs, now }: Draft, changedAtMs: number): ShelfEntry {
  const written = readBody(kind, now.body, { id, name: "new" });
  const { name, styleId, level } = now;
  const alsoNamed = now.alsoNamed.split("\n");
  return shelfEntry(written, { id, name, alsoNamed, styleId, level, from, madeAtMs, changedAtMs });
}

/** The draft once it is kept. */
export function keptAs(draft: Draft, entry: ShelfEntry): Draft {
  return { ...opened(entry), past: draft.past, future: [] };
}

function read(draft: Draft): Draft {
  try {
    const written = readBody(draft.kind, draft.now.body, { id: draft.id, name: "new" });
    const level = written.kind === "fill" ? written.music.level : draft.now.level;
    return { ...draft, written, problem: null, now: { ...draft.now, level } };
  } catch (error) {
    if (!(error instanceof GridError)) throw error;
    return { ...draft, problem: { words: error.message, line: error.line, column: error.column } };
  }
}

const FIELDS = ["name", "alsoNamed", "styleId", "level", "body"] as const;

function fieldsOf(change: Partial<Changeable>): readonly (keyof Changeable)[] {
  return FIELDS.filter((field) => field in change);
}

/** One letter more or less, in a word: not a step of its own. */
function isLetterMore(before: Changeable, after: Changeable, field: keyof Changeable): boolean {
  const [was, is] = [before[field] ?? "", after[field] ?? ""];
  return Math.abs(was.length - is.length) === 1 && !/\s/.test(is.at(-1) ?? "");
}
