/**
 * A figure of the page as one self-contained SVG: its drawings and the words beside them, where they stand on the
 * page, under a title and above a line that says what it is of.
 */
import { faceRules, LETTERS } from "./letters.ts";
import { type LineOfText, linesOfText } from "./linesOfText.ts";
import { plainDrawing, plainValue } from "./plainStyle.ts";

/** A picture as a file, with its size in CSS pixels. */
export interface Picture {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
}

export interface PictureWords {
  /** What the picture shows: "Lean and spread by beat of the bar". */
  readonly title: string;
  /** What it is of: "Shuffle, 2026-11-26, 104 a minute". */
  readonly source: string;
}

const SVG_NAMESPACE = "http://www.w3.org/2000/svg";
const EDGE = 20;
const TITLE = { size: 17, height: 34 } as const;
const SOURCE = { size: 13, height: 30 } as const;
/** Letters that are no wider than this share of their size on the whole, as those of the program are. */
const LETTER_WIDTH = 0.56;

/** Controls, and tables that open, are no part of the picture. */
const LEFT_OUT = "button, details, [data-not-in-picture], .heard-only";

/** @throws Error when the figure holds nothing that is drawn. */
export function figurePicture(figure: Element, words: PictureWords): Picture {
  const drawings = [...figure.querySelectorAll("svg")].filter(
    (svg) => svg.closest(LEFT_OUT) === null && svg.parentElement?.closest("svg") === null && isShown(svg),
  );
  if (drawings.length === 0) throw new Error("There is no drawing in this figure yet.");
  const lines = linesOfText(figure, (element) => element.matches(LEFT_OUT) || !isShown(element));
  const box = boxAround([...drawings.map(drawnBox), ...lines]);
  const titleWidth =
    LETTER_WIDTH * Math.max(words.title.length * TITLE.size, words.source.length * SOURCE.size);
  const width = Math.ceil(Math.max(box.right - box.left, titleWidth) + 2 * EDGE);
  const height = Math.ceil(box.bottom - box.top + 2 * EDGE + TITLE.height + SOURCE.height);
  const left = EDGE - box.left;
  const top = EDGE + TITLE.height - box.top;

  const root = element("svg", { viewBox: `0 0 ${width} ${height}`, width, height, role: "img" });
  root.append(element("title", {}, `${words.title}. ${words.source}`));
  const page = getComputedStyle(figure);
  root.append(element("rect", { width, height, fill: paperUnder(figure) }));
  const ink = { "font-family": LETTERS, fill: plainValue(page.color) };
  root.append(
    element(
      "text",
      { ...ink, x: EDGE, y: EDGE + TITLE.size, "font-size": TITLE.size, "font-weight": 700 },
      words.title,
    ),
  );
  const idOf = namesApart();
  for (const drawing of drawings) root.append(placed(plainDrawing(drawing, idOf), drawing, { left, top }));
  for (const line of lines) root.append(written(line, { left, top }));
  const soft = { ...ink, "font-size": SOURCE.size };
  root.append(element("text", { ...soft, x: EDGE, y: height - EDGE }, words.source));
  useLetters(root);
  return { svg: new XMLSerializer().serializeToString(root), width, height };
}

function isShown(element: Element): boolean {
  const { display, visibility } = getComputedStyle(element);
  return display !== "none" && visibility !== "hidden";
}

/** The colour the figure lies on: of the nearest element that has one. */
function paperUnder(figure: Element): string {
  for (let under: Element | null = figure; under; under = under.parentElement) {
    const colour = plainValue(getComputedStyle(under).backgroundColor);
    if (colour !== "none") return colour;
  }
  return "#ffffff";
}

interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Of a drawing, on the right no further than what is drawn: a staff may fill half of its room. */
function drawnBox(drawing: SVGSVGElement): Box {
  const { left, top, right, bottom } = drawing.getBoundingClientRect();
  const toWindow = drawing.getScreenCTM();
  const drawn = drawing.getBBox();
  return {
    left,
    top,
    bottom,
    right: toWindow ? toWindow.a * (drawn.x + drawn.width) + toWindow.e : right,
  };
}

function boxAround(boxes: readonly Box[]): Box {
  return {
    left: Math.min(...boxes.map(({ left }) => left)),
    top: Math.min(...boxes.map(({ top }) => top)),
    right: Math.max(...boxes.map(({ right }) => right)),
    bottom: Math.max(...boxes.map(({ bottom }) => bottom)),
  };
}

interface Shift {
  readonly left: number;
  readonly top: number;
}

/** A drawing inside the picture, as large as it is on the page, which may have shrunk it. */
function placed(copy: SVGElement, drawing: SVGSVGElement, { left, top }: Shift): SVGElement {
  const box = drawing.getBoundingClientRect();
  const set = { x: box.left + left, y: box.top + top, width: box.width, height: box.height };
  for (const [name, value] of Object.entries(set)) copy.setAttribute(name, rounded(value));
  if (!copy.hasAttribute("viewBox")) copy.setAttribute("viewBox", `0 0 ${box.width} ${box.height}`);
  copy.setAttribute("overflow", "visible");
  return copy;
}

/** A line of the page's text. Its letters stand on a line a quarter of their height above the foot of their box. */
function written({ text, left: x, top, bottom, from }: LineOfText, shift: Shift): SVGElement {
  const look = getComputedStyle(from);
  const size = Number.parseFloat(look.fontSize);
  const baseline = (top + bottom) / 2 + size * 0.35;
  return element(
    "text",
    {
      x: rounded(x + shift.left),
      y: rounded(baseline + shift.top),
      "font-family": look.fontFamily,
      "font-size": size,
      "font-weight": look.fontWeight,
      fill: plainValue(look.color),
    },
    text,
  );
}

/** Families become the one that goes with the picture, and the faces it needs go in. */
function useLetters(root: SVGElement): void {
  const weights = new Set<number>();
  for (const part of root.querySelectorAll("[font-family]")) part.setAttribute("font-family", LETTERS);
  for (const text of root.querySelectorAll("text")) {
    const weight = text.closest("[font-weight]")?.getAttribute("font-weight") ?? "400";
    weights.add(Number(weight));
    for (const part of text.querySelectorAll("[font-weight]"))
      weights.add(Number(part.getAttribute("font-weight")));
  }
  root.prepend(element("style", {}, faceRules(weights)));
}

/** Names of ids that are apart from one another and plain: the page's own hold signs that XML does not take. */
function namesApart(): (id: string) => string {
  const names = new Map<string, string>();
  return (id) => {
    const name = names.get(id) ?? `part-${names.size + 1}`;
    names.set(id, name);
    return name;
  };
}

function element(
  name: string,
  attributes: Readonly<Record<string, string | number>>,
  text?: string,
): SVGElement {
  const made = document.createElementNS(SVG_NAMESPACE, name);
  for (const [attribute, value] of Object.entries(attributes)) made.setAttribute(attribute, String(value));
  if (text !== undefined) made.textContent = text;
  return made;
}

function rounded(value: number): string {
  return String(Math.round(value * 100) / 100);
}
