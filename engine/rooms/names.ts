/** People of one name in one room are told apart by a number, in the order they are listed. */
export function namesShown(names: readonly string[]): readonly string[] {
  const met = new Map<string, number>();
  return names.map((name) => {
    const key = name.toLocaleLowerCase("en");
    const count = (met.get(key) ?? 0) + 1;
    met.set(key, count);
    return count === 1 ? name : `${name} (${count})`;
  });
}
