/** What Spotting says, on the page and on the wall. */
import { certaintyWords } from "../../../engine/listening/index.ts";
import {
  type About,
  isSpotted,
  type SpottingAnswer,
  type SpottingKey,
  type SpottingQuestion,
  type ThingKind,
} from "../../../engine/rounds/index.ts";
import type { HearingNow } from "./hearing.ts";

const ASKED: Readonly<Record<ThingKind, string>> = {
  groove: "Which groove is it?",
  fill: "Which fill is it?",
  part: "Which tune is it from?",
};

/** What is asked, without a word of what it is. */
export function askedWords({ key }: Pick<SpottingQuestion, "key">, about: About): string {
  if (key.by === "program") return ASKED[key.thing.kind];
  if (about === "both") return "What is it?";
  return ASKED[about === "fills" ? "fill" : "groove"];
}

/** What is going on while a name is due, in a sentence or two. */
export function statusWords(
  { roles }: Pick<SpottingQuestion, "roles">,
  { what, strokes, isThoughtOver, isAgainAsked, note }: HearingNow,
  isSounding: boolean,
): string {
  if (isThoughtOver) {
    const thinking =
      what === "answer" ? "I am thinking over what was played back." : "I am thinking over what was played.";
    return isAgainAsked ? `${thinking} Again: it comes as soon as that is done.` : thinking;
  }
  if (note !== null) return note;
  if (isSounding) return "Listen.";
  if (what === "question") {
    if (strokes > 0) return "I am listening. A silence ends it.";
    return `${roles === "teacher-names" ? "The student plays" : "Play"} it on the kit. A silence ends it.`;
  }
  return what === "answer" && strokes > 0
    ? "I am listening to what is played back."
    : "Say it, type it, or play it back.";
}

/** How an answer stands to what was played; empty where there is nothing to say. */
export function answerWords(question: SpottingQuestion, answer: SpottingAnswer): string {
  const isRight = isSpotted(question, answer);
  switch (answer.way) {
    case "named":
      if (isRight) return "That is its name.";
      return isRight === null ? `Named: ${answer.thing.name}.` : `Taken for ${answer.thing.name}.`;
    case "played":
      return isRight ? "Played back." : `Played back: ${answer.thing.name}.`;
    case "other-name":
      return `Called “${answer.said}”.`;
    case "aloud":
      return answer.isRight ? "Its name was said." : "Another name was said.";
    case "knows-place":
      return "Known from somewhere: the name comes back next time.";
    case "never-heard":
      return "Never heard before: now it is.";
  }
}

/** What it is taken for and by whom, for whoever plays it. */
export function keyWords(key: SpottingKey): string {
  switch (key.by) {
    case "program":
      return key.thing.name;
    case "player":
      return `${key.thing.name}, as you say.`;
    case "ear":
      return key.thing === null
        ? "I know none that goes like this."
        : `${key.thing.name}. I am ${certaintyWords(key.confidence)}.`;
  }
}
