/** Where in the lesson one is, what is looped, how near one looks: a reducer without sound or clocks. */
import type { Seconds } from "../../../engine/units/index.ts";

/** Speeds; a stroke is one recording, so that slower playing keeps its pitch. */
export const RATES = [0.25, 0.5, 0.75, 1, 1.25, 1.5, 2] as const;

export interface Span {
  readonly from: Seconds;
  readonly to: Seconds;
}

export interface Playhead {
  /** Length of the lesson, so far. */
  readonly seconds: Seconds;
  /** The lesson has not ended: it may grow. */
  readonly goesOn: boolean;
  readonly cursor: Seconds;
  readonly isPlaying: boolean;
  readonly rate: number;
  /** What is played round and round. */
  readonly loop: Span | null;
  /** The part of the lesson that is seen near to. */
  readonly view: Span;
}

export type PlayheadEvent =
  /** The cursor is put somewhere: what is seen comes with it. */
  | { readonly kind: "put"; readonly at: Seconds }
  /** More of the lesson has come, or it has ended. One who is at its end goes along. */
  | { readonly kind: "grew"; readonly seconds: Seconds; readonly goesOn: boolean }
  /** It has come here by playing. */
  | { readonly kind: "reached"; readonly at: Seconds }
  | { readonly kind: "played" }
  | { readonly kind: "stopped" }
  | { readonly kind: "rate"; readonly rate: number }
  | { readonly kind: "faster" }
  | { readonly kind: "slower" }
  | { readonly kind: "loop-from" }
  | { readonly kind: "loop-to" }
  | { readonly kind: "loop"; readonly span: Span | null }
  | { readonly kind: "nearer" }
  | { readonly kind: "further" }
  | { readonly kind: "view"; readonly span: Span };

/** A single strike and the air round it. Our choice. */
const NEAREST: Seconds = 0.25;
const SHORTEST_LOOP: Seconds = 0.1;
/** What one sees first: some bars. Our choice. */
const FIRST_VIEW: Seconds = 12;

export function newPlayhead(seconds: Seconds, cursor: Seconds = 0, goesOn = false): Playhead {
  const at = within(cursor, seconds);
  const view = viewAbout(at, firstSpan(seconds), seconds);
  return { seconds, goesOn, cursor: at, isPlaying: false, rate: 1, loop: null, view };
}

function firstSpan(seconds: Seconds): Seconds {
  return Math.min(FIRST_VIEW, Math.max(seconds, NEAREST));
}

/** Whether the cursor goes along with a lesson that is on: it stands where the lesson has come to. */
export function goesAlong({ goesOn, isPlaying, cursor, seconds }: Playhead): boolean {
  return goesOn && !isPlaying && cursor >= seconds;
}

export function playheadAfter(state: Playhead, event: PlayheadEvent): Playhead {
  switch (event.kind) {
    case "put":
      return withView({ ...state, cursor: within(event.at, state.seconds) });
    case "grew":
      return grown(state, event);
    case "reached":
      return withView({ ...state, cursor: within(event.at, state.seconds) });
    case "played":
      return state.isPlaying ? state : { ...state, isPlaying: true };
    case "stopped":
      return state.isPlaying ? { ...state, isPlaying: false } : state;
    case "rate":
      return { ...state, rate: Math.min(2, Math.max(0.25, event.rate)) };
    case "faster":
      return { ...state, rate: RATES.find((rate) => rate > state.rate) ?? state.rate };
    case "slower":
      return { ...state, rate: RATES.findLast((rate) => rate < state.rate) ?? state.rate };
    case "loop-from":
      return { ...state, loop: loopFrom(state) };
    case "loop-to":
      return { ...state, loop: loopTo(state) };
    case "loop":
      return { ...state, loop: event.span };
    case "nearer":
      return zoomed(state, 0.5);
    case "further":
      return zoomed(state, 2);
    case "view": {
      const from = within(event.span.from, state.seconds);
      return { ...state, view: { from, to: Math.max(from + NEAREST, event.span.to) } };
    }
  }
}

function grown(state: Playhead, { seconds, goesOn }: Extract<PlayheadEvent, { kind: "grew" }>): Playhead {
  const { view, cursor } = state;
  const span = view.to - view.from;
  // Of a lesson that had hardly begun less was seen than one sees first.
  const isWhole = span < FIRST_VIEW && view.from <= 0 && view.to >= state.seconds;
  const seen = isWhole ? { from: view.from, to: view.from + Math.max(span, firstSpan(seconds)) } : view;
  const next = { ...state, seconds, goesOn, view: seen };
  return goesAlong(state) ? withView({ ...next, cursor: Math.max(cursor, seconds) }) : next;
}

/** Begins at the cursor; what would be shorter than nothing goes on to the end of what is seen. */
function loopFrom({ cursor, loop, view, seconds }: Playhead): Span {
  const to = loop && loop.to > cursor + SHORTEST_LOOP ? loop.to : Math.min(seconds, view.to);
  return { from: cursor, to: Math.max(to, cursor + SHORTEST_LOOP) };
}

function loopTo({ cursor, loop, view }: Playhead): Span {
  const from = loop && loop.from < cursor - SHORTEST_LOOP ? loop.from : Math.max(0, view.from);
  return { from: Math.min(from, Math.max(0, cursor - SHORTEST_LOOP)), to: Math.max(cursor, SHORTEST_LOOP) };
}

/** About the cursor, so that it stays where it is looked for. */
function zoomed(state: Playhead, by: number): Playhead {
  const { view, cursor, seconds } = state;
  const span = Math.min(Math.max(NEAREST, (view.to - view.from) * by), Math.max(seconds, NEAREST));
  return { ...state, view: viewAbout(cursor, span, seconds) };
}

/** The page is turned when the cursor leaves it; it does not crawl along, which tires the eye. */
function withView(state: Playhead): Playhead {
  const { cursor, view, seconds } = state;
  if (cursor >= view.from && cursor <= view.to) return state;
  const span = view.to - view.from;
  // What comes next is seen more of than what was.
  const from = Math.max(0, Math.min(cursor - span / 8, seconds - span));
  return { ...state, view: { from, to: from + span } };
}

function viewAbout(cursor: Seconds, span: Seconds, seconds: Seconds): Span {
  const from = Math.max(0, Math.min(cursor - span / 2, seconds - span));
  return { from, to: from + span };
}

function within(time: Seconds, seconds: Seconds): Seconds {
  return Math.min(Math.max(0, time), seconds);
}
