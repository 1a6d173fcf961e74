/** The text of a part of the page, line by line as it stands there, so that a picture can say it in the same place. */

export interface LineOfText {
  readonly text: string;
  /** Of the line's box, in CSS pixels of the window. */
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** The element whose look the line has. */
  readonly from: Element;
}

/** Lines of the text in `root`; `isLeftOut` keeps out controls and whatever is no text of the picture. */
export function linesOfText(root: Element, isLeftOut: (element: Element) => boolean): readonly LineOfText[] {
  const lines: LineOfText[] = [];
  const walker = document.createTreeWalker(root, NodeFilter.SHOW_ELEMENT | NodeFilter.SHOW_TEXT, (node) =>
    node instanceof Element && (isLeftOut(node) || node.localName === "svg")
      ? NodeFilter.FILTER_REJECT
      : NodeFilter.FILTER_ACCEPT,
  );
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    if (node instanceof Text && node.parentElement) lines.push(...linesOf(node, node.parentElement));
  }
  return lines;
}

function linesOf(node: Text, from: Element): readonly LineOfText[] {
  const range = document.createRange();
  const lines: LineOfText[] = [];
  for (const word of node.data.matchAll(/\S+/g)) {
    range.setStart(node, word.index);
    range.setEnd(node, word.index + word[0].length);
    const box = range.getBoundingClientRect();
    if (box.width === 0) continue;
    const last = lines.at(-1);
    if (last && Math.abs(last.top - box.top) < box.height / 2)
      lines[lines.length - 1] = { ...last, text: `${last.text} ${word[0]}`, right: box.right };
    else
      lines.push({ text: word[0], left: box.left, right: box.right, top: box.top, bottom: box.bottom, from });
  }
  return lines;
}
