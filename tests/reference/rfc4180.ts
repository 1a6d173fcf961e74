/** A reader of RFC 4180 (Shafranovich 2005), written from its grammar and not from the program's writer. */
export function readCsv(text: string): readonly (readonly string[])[] {
  const lines: string[][] = [];
  let line: string[] = [];
  let at = 0;
  while (at < text.length) {
    let cell = "";
    if (text[at] === '"') {
      at += 1;
      while (!(text[at] === '"' && text[at + 1] !== '"')) {
        if (at >= text.length) throw new Error("A quote is not closed.");
        cell += text[at];
        at += text[at] === '"' ? 2 : 1;
      }
      at += 1;
    } else {
      while (at < text.length && !',\r\n"'.includes(text[at] ?? "")) {
        cell += text[at];
        at += 1;
      }
    }
    line.push(cell);
    if (text[at] === ",") {
      at += 1;
      if (at === text.length) throw new Error("A line is not ended.");
    } else if (text.startsWith("\r\n", at)) {
      at += 2;
      lines.push(line);
      line = [];
    } else throw new Error(`Neither comma nor line end at ${at}.`);
  }
  return lines;
}
