/** What tests of Desk, Roster and Studio do again and again: students put there by hand, and all storage read. */
import { expect, type Page } from "@playwright/test";
import { hitChunkSchema, hitCount } from "../../engine/records/index.ts";
import { dropFile, grooveFile } from "./midiFile.ts";
import { turnTo } from "./turnTo.ts";

/** Adds a student on the page Roster, as a teacher does. */
export async function addStudent(
  page: Page,
  nickname: string,
  how: { readonly weekday?: string; readonly from?: string; readonly level?: string } = {},
): Promise<void> {
  if (page.url() === "about:blank") await page.goto("./#/roster/new");
  else await turnTo(page, "#/roster/new");
  await page.getByRole("textbox", { name: "Nickname" }).fill(nickname);
  if (how.level !== undefined) await choose(page, "Level", how.level);
  if (how.weekday !== undefined) await choose(page, "Lesson day", how.weekday);
  if (how.from !== undefined) await page.getByLabel("From").fill(how.from);
  await page.getByRole("button", { name: "Add to the Roster" }).click();
  await expect(page.getByRole("heading", { level: 1, name: nickname })).toBeVisible();
}

export async function choose(page: Page, label: string | RegExp, option: string | RegExp): Promise<void> {
  await page.getByRole("button", { name: label }).click();
  await page.getByRole("option", { name: option }).click();
}

/** Adds students, makes a group of them, and begins a lesson with it. */
export async function beginWithGroup(page: Page, ...nicknames: readonly string[]): Promise<void> {
  for (const nickname of nicknames) await addStudent(page, nickname, { weekday: "Monday", from: "15:15" });
  await turnTo(page, "#/roster");
  await page.getByRole("textbox", { name: "A new group" }).fill("Mondays");
  await page.getByRole("button", { name: "Make the group" }).click();
  for (const name of nicknames) {
    await turnTo(page, "#/roster");
    await page.getByRole("main").getByRole("link", { name }).first().click();
    // The name of the group stands on the Roster too: its own page is there when its heading is.
    await expect(page.getByRole("heading", { level: 1, name })).toBeVisible();
    await page.getByText("Mondays", { exact: true }).click();
    await expect(page.getByRole("switch", { name: "Mondays" })).toBeChecked();
  }
  await turnTo(page, "#/desk");
  await choose(page, /Begin a lesson with a group/, "Mondays");
}

/** Everything this page's address keeps in the browser, as one text: databases, local and session storage, caches. */
export async function allStorage(page: Page): Promise<string> {
  return page.evaluate(async () => {
    const asText = (value: unknown): string =>
      JSON.stringify(value, (_, part: unknown) =>
        part instanceof Uint8Array ? new TextDecoder("latin1").decode(part) : part,
      ) ?? "";
    const answer = <Value>(request: IDBRequest<Value>): Promise<Value> =>
      new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const parts: string[] = [asText({ ...localStorage }), asText({ ...sessionStorage })];
    for (const { name } of await indexedDB.databases()) {
      if (name === undefined) continue;
      const database = await answer(indexedDB.open(name));
      for (const store of database.objectStoreNames) {
        const objects = database.transaction(store).objectStore(store);
        parts.push(
          `${name}/${store}: ${asText([await answer(objects.getAllKeys()), await answer(objects.getAll())])}`,
        );
      }
      database.close();
    }
    for (const name of await caches.keys()) {
      const kept = await (await caches.open(name)).keys();
      parts.push(asText(kept.map(({ url }) => url)));
    }
    return parts.join("\n");
  });
}

/** The rows of one table of the studio's database. */
export async function rowsOf(page: Page, table: string): Promise<readonly Record<string, unknown>[]> {
  return page.evaluate(async (store) => {
    const answer = <Value>(request: IDBRequest<Value>): Promise<Value> =>
      new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const database = await answer(indexedDB.open("throneside"));
    const rows = await answer(database.transaction(store).objectStore(store).getAll());
    database.close();
    return rows;
  }, table);
}

/** Waits until so many strikes are stored. They are written a few at a time: that some are there says nothing of the rest. */
export async function waitForStoredStrikes(page: Page, count: number): Promise<void> {
  await expect
    .poll(async () =>
      (await rowsOf(page, "hits")).reduce((sum, row) => sum + hitCount(hitChunkSchema.parse(row)), 0),
    )
    .toBe(count);
}

/** Eight bars of a bossa nova, called and handed over at once from a file; the take goes on. */
export async function playBossa(page: Page): Promise<void> {
  await page.getByRole("main").getByRole("link", { name: "Call a Style" }).click();
  await page.getByRole("option", { name: "Bossa nova", exact: true }).click();
  await page.getByRole("button", { name: "Start listening" }).click();
  await dropFile(page, "bossa.mid", grooveFile("bossa-nova", { bars: 8, tempoBpm: 130 }));
  await page.getByRole("button", { name: "all at once" }).click();
  await expect(page.getByText(/^Bossa nova\. I am /)).toBeVisible();
}
