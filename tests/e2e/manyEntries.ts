import { expect, type Page } from "@playwright/test";

/** Puts entries called "Stair 00000" and so on into the database of this page, and reads the Shelf anew. */
export async function putManyEntries(page: Page, count: number): Promise<void> {
  await page.evaluate(async (count) => {
    const settled = <T>(request: IDBRequest<T>) =>
      new Promise<T>((done, failed) => {
        request.onsuccess = () => done(request.result);
        request.onerror = () => failed(request.error);
      });
    const database = await settled(indexedDB.open("throneside"));
    const store = database.transaction("entries", "readwrite").objectStore("entries");
    for (let index = 0; index < count; index += 1) {
      const name = `Stair ${String(index).padStart(5, "0")}`;
      store.put({
        version: 1,
        id: `own/${index}`,
        kind: "groove",
        name,
        alsoNamed: [],
        styleId: null,
        metre: { numerator: 4, denominator: 4 },
        level: null,
        tempoBpm: { low: 80, high: 120 },
        bars: 1,
        grid: `groove: own/${index}\nname: ${name}\nmetre: 4/4\nfeel: straight\ntempo: 80-120\n\nkick | x... |\n`,
        from: { kind: "written" },
        madeAtMs: index,
        changedAtMs: index,
        bareNames: [name.toLowerCase()],
      });
    }
    await new Promise((done) => {
      store.transaction.oncomplete = done;
    });
    database.close();
  }, count);
  await page.reload();
  await expect(page.getByText(new RegExp(`^${Math.floor(count / 1000)}\\d\\d\\d entries\\.$`))).toBeVisible({
    timeout: 40_000,
  });
}
