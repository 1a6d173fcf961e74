/**
 * Elements of an XML 1.0 document as text.
 * Source: W3C, Extensible Markup Language (XML) 1.0, fifth edition: what must be escaped, and which characters cannot be.
 */

export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string | number>>;
  /** Elements in order, or text. */
  readonly content: readonly XmlElement[] | string;
}

/** An element with text or with elements in it; what is `undefined` or `false` is left out. */
export function element(
  name: string,
  content: string | number | readonly (XmlElement | false | undefined)[] = [],
  attributes: Readonly<Record<string, string | number>> = {},
): XmlElement {
  if (typeof content === "string" || typeof content === "number") {
    return { name, attributes, content: String(content) };
  }
  return { name, attributes, content: content.filter((child) => child !== undefined && child !== false) };
}

/** The element and all in it, one element a line, two spaces deeper each. */
export function xmlText({ name, attributes, content }: XmlElement, indent = ""): string {
  const start = `${indent}<${name}${Object.entries(attributes)
    .map(([key, value]) => ` ${key}="${escaped(String(value))}"`)
    .join("")}`;
  if (content.length === 0) return `${start}/>\n`;
  if (typeof content === "string") return `${start}>${escaped(content)}</${name}>\n`;
  return `${start}>\n${content.map((child) => xmlText(child, `${indent}  `)).join("")}${indent}</${name}>\n`;
}

const ESCAPES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };
/** Characters no XML document may hold, escaped or not: most control characters, lone surrogates, two at the end. */
const IMPOSSIBLE = /[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu;

function escaped(text: string): string {
  return text.replace(IMPOSSIBLE, "\u{FFFD}").replace(/[&<>"]/g, (mark) => ESCAPES[mark] ?? mark);
}
