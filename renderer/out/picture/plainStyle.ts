/**
 * What a drawing looks like, written into the drawing itself: computed styles become presentation attributes (SVG 2,
 * "Presentation attributes"), so that no style sheet and no design token is needed to draw it elsewhere.
 */

/** Properties that pass from a group to what is in it, with what holds at the root of every drawing. */
const PASSED_ON: Readonly<Record<string, string>> = {
  fill: "#000000",
  "fill-opacity": "1",
  "fill-rule": "nonzero",
  stroke: "none",
  "stroke-width": "1",
  "stroke-opacity": "1",
  "stroke-dasharray": "none",
  "stroke-linecap": "butt",
  "stroke-linejoin": "miter",
  "paint-order": "normal",
  "font-family": "",
  "font-size": "",
  "font-weight": "400",
  "font-style": "normal",
  "letter-spacing": "normal",
  "text-anchor": "start",
  visibility: "visible",
};

/** Properties of one element alone. */
const OWN: Readonly<Record<string, string>> = { opacity: "1", "dominant-baseline": "auto" };

/** Attributes that say nothing once the look is written out. */
const NOT_KEPT = /^(class|style|role|tabindex|focusable|cursor|data-.*|aria-.*)$/;

/** Elements that are known to work in every program that draws SVG; nothing else is in our charts. */
const SVG_NAMESPACE = "http://www.w3.org/2000/svg";

/**
 * A copy of a drawing on the page, with its look written out. Parts that are not displayed are left out.
 *
 * @param idOf gives the new name of each id, so that names stay apart when drawings are put together.
 */
export function plainDrawing(drawing: SVGSVGElement, idOf: (id: string) => string): SVGElement {
  return copyOf(drawing, PASSED_ON, idOf) ?? document.createElementNS(SVG_NAMESPACE, "g");
}

function copyOf(
  element: Element,
  passedOn: Readonly<Record<string, string>>,
  idOf: (id: string) => string,
): SVGElement | undefined {
  const look = getComputedStyle(element);
  // What stands in `defs` is never displayed itself.
  if (look.display === "none" && element.closest("defs") === null && element.localName !== "defs")
    return undefined;
  const copy = document.createElementNS(SVG_NAMESPACE, element.localName);
  for (const { name, value } of element.attributes) {
    if (NOT_KEPT.test(name) || name in PASSED_ON || name in OWN || name.startsWith("xmlns")) continue;
    copy.setAttribute(name, renamed(name, value, idOf));
  }
  const now: Record<string, string> = {};
  for (const [property, before] of Object.entries(passedOn)) {
    const value = plainValue(look.getPropertyValue(property));
    now[property] = value;
    if (value !== before) copy.setAttribute(property, value);
  }
  for (const [property, usual] of Object.entries(OWN)) {
    const value = look.getPropertyValue(property);
    if (value !== usual && value !== "") copy.setAttribute(property, value);
  }
  for (const child of element.childNodes) {
    const kept = child instanceof Element ? copyOf(child, now, idOf) : textOf(child);
    if (kept) copy.append(kept);
  }
  return copy;
}

function textOf(node: ChildNode): Text | undefined {
  return node.nodeType === Node.TEXT_NODE ? document.createTextNode(node.textContent ?? "") : undefined;
}

function renamed(name: string, value: string, idOf: (id: string) => string): string {
  if (name === "id") return idOf(value);
  if (name === "href" && value.startsWith("#")) return `#${idOf(value.slice(1))}`;
  return value.replace(/url\((["']?)#([^"')]+)\1\)/g, (_, __, id: string) => `url(#${idOf(id)})`);
}

/** A computed value as every program reads it: colours as #rrggbb, lengths without "px". */
export function plainValue(computed: string): string {
  const value = computed.trim();
  const colour = /^rgba?\(\s*(\d+)[ ,]+(\d+)[ ,]+(\d+)\s*(?:[,/]\s*([\d.]+)\s*)?\)$/.exec(value);
  if (colour) {
    const [, red, green, blue, alpha] = colour;
    if (alpha !== undefined && Number(alpha) === 0) return "none";
    if (alpha === undefined || Number(alpha) === 1) return hexOf([red, green, blue].map(Number));
    return value;
  }
  return value.replace(/(-?[\d.]+)px/g, "$1");
}

function hexOf(parts: readonly number[]): string {
  return `#${parts.map((part) => part.toString(16).padStart(2, "0")).join("")}`;
}
