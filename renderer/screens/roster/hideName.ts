/** Takes a name out of a row, in the fields in which people write; elsewhere it is a word of the program. */

const WRITTEN_FIELDS: ReadonlySet<string> = new Set([
  "nickname",
  "name",
  "alsoNamed",
  "notes",
  "text",
  "words",
  "by",
  "file",
]);
/** Grid texts: only their head line says a name, the lines below it name drums. */
const GRID_FIELDS: ReadonlySet<string> = new Set(["grid", "calledGrid", "comparedGrid"]);
const NAME_LINE = /^name:.*$/m;

export type HideName = (text: string) => string;

/** The row without the name; the same object where it does not say it. Bytes are left as they are. */
export function rowHidden<Value>(value: Value, hide: HideName, field = ""): Value {
  if (typeof value === "string") return textHidden(value, hide, field) as Value & string;
  if (typeof value !== "object" || value === null || value instanceof Uint8Array) return value;
  if (Array.isArray(value)) {
    const items = value.map((item: unknown) => rowHidden(item, hide, field));
    return items.some((item, index) => item !== value[index]) ? (items as Value & unknown[]) : value;
  }
  const parts = Object.entries(value).map(([key, part]) => [key, rowHidden(part, hide, key), part] as const);
  if (parts.every(([, after, before]) => after === before)) return value;
  return Object.fromEntries(parts.map(([key, after]) => [key, after])) as Value & object;
}

function textHidden(text: string, hide: HideName, field: string): string {
  if (GRID_FIELDS.has(field)) return text.replace(NAME_LINE, hide);
  return WRITTEN_FIELDS.has(field) ? hide(text) : text;
}
