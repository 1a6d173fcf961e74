/** Two pages in one room on this computer, and the desk of a kit lab, with a real broker between. */
import { fileURLToPath } from "node:url";
import { test as anyTest, expect, type Page } from "@playwright/test";
import { readCertificate } from "../../broker/certificate.ts";
import { type OpenRoom, openRoom } from "../../broker/openRoom.ts";
import { expectClean } from "./clean.ts";
import { test } from "./quietTest.ts";
import { fillInRoom, joinRoom, type RoomRead } from "./roomJoined.ts";
import { turnTo } from "./turnTo.ts";
import { openConnected, send, sendInTime, stroke } from "./virtualKit.ts";

test.use({ reducedMotion: "reduce" });

const CODE = "TEST-CODE-0001";
let room: OpenRoom;

test.beforeEach(async () => {
  room = await openRoom({ name: "Millrace", code: CODE, host: "127.0.0.1", port: 0 });
});
test.afterEach(() => room.close());

function read(name: string, { code = CODE }: { readonly code?: string } = {}): RoomRead {
  return { name, address: `127.0.0.1:${room.port}`, room: "Millrace", code };
}

/** Counts what is handed to the sound device from now on. */
async function countSounds(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const { start } = AudioBufferSourceNode.prototype;
    document.addEventListener("DOMContentLoaded", () => {
      document.documentElement.dataset.sounds = "0";
    });
    AudioBufferSourceNode.prototype.start = function (...when) {
      const { dataset } = document.documentElement;
      dataset.sounds = String(Number(dataset.sounds) + 1);
      start.apply(this, when);
    };
  });
}

async function sounds(page: Page): Promise<number> {
  return Number(await page.locator("html").getAttribute("data-sounds"));
}

test("two players are heard at each other's place as the second kit, and the delay is told", async ({
  browser,
}) => {
  const [noor, bram] = [
    await (await browser.newContext()).newPage(),
    await (await browser.newContext()).newPage(),
  ];
  for (const page of [noor, bram]) {
    await countSounds(page);
    await openConnected(page);
    await page.getByRole("link", { name: "A kit far away" }).click();
    await expect(page.getByText("In no room.")).toBeVisible();
  }
  await expectClean(noor);
  // By the keyboard alone.
  await fillInRoom(noor, read("Noor"));
  await noor.getByRole("textbox", { name: "Code" }).press("Enter");
  await expect(noor.getByText("In the room Millrace")).toBeVisible();
  await expect(noor.getByText("Nobody else yet.")).toBeVisible();
  await joinRoom(bram, read("Bram"));
  await expect(noor.getByRole("rowheader", { name: "Bram" })).toBeVisible();
  await expect(
    noor.getByText(/The far player is as near as in one room|The far player is as far as/),
  ).toBeVisible();
  await expectClean(noor);
  await send(bram, [stroke(38), stroke(36), stroke(49)]);
  await expect(noor.getByRole("row", { name: /Bram/ })).toContainText("3 strikes");
  // Their kits have modules of their own: what is struck here sounds there, and nowhere twice.
  await expect.poll(() => sounds(noor)).toBe(3);
  expect(await sounds(bram)).toBe(0);
  // One browser may stand still for a moment under load; the room notices by itself, and nothing is lost.
  await expect(bram.getByRole("row", { name: /Noor/ })).toContainText("0 strikes");
  await bram.getByRole("button", { name: "Leave the room" }).click();
  await expect(bram.getByText("In no room.")).toBeVisible();
  await expect(noor.getByRole("row", { name: /Bram/ })).toContainText("gone");
  for (const page of [noor, bram]) await page.context().close();
});

// The browser itself complains of a room that is not there: this one is not of the quiet tests.
anyTest(
  "a wrong code, a room that is not there, and one that breaks off are told plainly",
  async ({ page }) => {
    await page.goto("./#/kit/room");
    await fillInRoom(page, read("Noor", { code: "WRONG-CODE-0" }));
    await page.getByRole("button", { name: "Join the room" }).click();
    await expect(page.getByText("The room’s name or its code is not right.")).toBeVisible();
    await expectClean(page);
    await joinRoom(page, read("Noor"));
    const { port } = room;
    await room.close();
    await expect(page.getByText("The room broke off.")).toBeVisible();
    await expectClean(page);
    room = await openRoom({ name: "Millrace", code: CODE, host: "127.0.0.1", port });
    await expect(page.getByText("In the room Millrace")).toBeVisible();
    await page.getByRole("button", { name: "Leave the room" }).click();
    await page.reload();
    await expect(page.getByRole("textbox", { name: "Your name in the room" })).toHaveValue("Noor");
    await expect(page.getByRole("textbox", { name: "Code" })).toHaveValue("");
    await page.getByRole("textbox", { name: "Address" }).fill("somewhere else");
    await page.getByRole("textbox", { name: "Code" }).fill(CODE);
    await page.getByRole("button", { name: "Join the room" }).click();
    await expect(page.getByText('"somewhere else" is no address of a room.')).toBeVisible();
    // A local round goes on without a room.
    await turnTo(page, "#/call-a-style");
    await expect(page.getByRole("button", { name: "Start listening" })).toBeVisible();
  },
);

test("the desk follows a kit of the lab, calls a style to it, and opens it", async ({ browser }) => {
  const [desk, kit] = [
    await (await browser.newContext()).newPage(),
    await (await browser.newContext()).newPage(),
  ];
  await desk.goto("./#/desk");
  await desk.getByRole("link", { name: "Follow the kits of a lab" }).click();
  await expect(desk.getByRole("heading", { name: "Kit lab" })).toBeVisible();
  await expectClean(desk);
  await joinRoom(desk, read("Teacher"));
  await expect(desk.getByText("No kit yet.")).toBeVisible();
  await openConnected(kit);
  await turnTo(kit, "#/kit/room");
  await joinRoom(kit, read("Kit 7"), "a kit of a lab");
  await expect(desk.getByRole("button", { name: "Kit 7" })).toBeVisible();
  await expect(desk.getByText("1 kit here")).toBeVisible();
  await desk.getByRole("button", { name: /Call to all kits/ }).click();
  await desk
    .getByRole("option", { name: "Rock in eighths" })
    .or(desk.getByRole("option").nth(1))
    .first()
    .click();
  await expect(kit.getByText("Play:", { exact: false })).toBeVisible();
  await expectClean(kit);
  await desk.getByRole("button", { name: "Kit 7" }).click();
  await expect(desk.getByText("Nothing was struck yet.")).toBeVisible();
  await send(kit, [stroke(38)]);
  await expect(desk.getByText("Last struck: snare.")).toBeVisible();
  await expectClean(desk);
  await desk.getByRole("button", { name: "Close this kit" }).press("Enter");
  await expect(desk.getByRole("button", { name: "Close this kit" })).toHaveCount(0);
  // Three bars of eighths: enough for the kit's own computer to say something of it.
  await sendInTime(
    kit,
    Array.from({ length: 48 }, (_, eighth) =>
      [42, ...(eighth % 8 === 0 || eighth % 8 === 5 ? [36] : []), ...(eighth % 4 === 2 ? [38] : [])].map(
        (key) => ({ ms: eighth * 250, bytes: stroke(key) }),
      ),
    ).flat(),
  );
  await expect(desk.getByRole("listitem").filter({ hasText: "Kit 7" })).not.toContainText(
    /nothing yet|listening/,
  );
  await expect(desk.getByRole("listitem").filter({ hasText: "Kit 7" })).toContainText("in 100 as written");
  for (const page of [desk, kit]) await page.context().close();
});

test("a room with a certificate is joined by its address with wss, by a page that trusts it", async ({
  browser,
}) => {
  const folder = new URL("../fixtures/room-tls/", import.meta.url);
  const files = {
    cert: fileURLToPath(new URL("cert.pem", folder)),
    key: fileURLToPath(new URL("key.pem", folder)),
  };
  const secret = await openRoom({
    name: "Millrace",
    code: CODE,
    host: "127.0.0.1",
    port: 0,
    certificate: readCertificate(files),
  });
  // The certificate of the tests is vouched for by nobody.
  const context = await browser.newContext({ ignoreHTTPSErrors: true });
  const page = await context.newPage();
  await page.goto("./#/kit/room");
  const [address = ""] = secret.addresses;
  expect(address).toBe(`wss://localhost:${secret.port}`);
  await joinRoom(page, { name: "Noor", address, room: "Millrace", code: CODE });
  await expect(page.getByText("Nobody else yet.")).toBeVisible();
  expect(secret.connected()).toBe(1);
  await context.close();
  await secret.close();
});
