/** A room joined by hand, on its page of Kit. */
import { expect, type Page } from "@playwright/test";

export interface RoomRead {
  /** As whom. */
  readonly name: string;
  readonly address: string;
  readonly room: string;
  readonly code: string;
}

export async function fillInRoom(page: Page, { name, address, room, code }: RoomRead): Promise<void> {
  await page.getByRole("textbox", { name: "Your name in the room" }).fill(name);
  await page.getByRole("textbox", { name: "Address" }).fill(address);
  await page.getByRole("textbox", { name: "Room", exact: true }).fill(room);
  await page.getByRole("textbox", { name: "Code" }).fill(code);
}

/** @param role as what: a player, where it is not said. */
export async function joinRoom(page: Page, read: RoomRead, role?: string): Promise<void> {
  await fillInRoom(page, read);
  if (role !== undefined) {
    await page.getByRole("button", { name: /You are here as one who/ }).click();
    await page.getByRole("option", { name: role }).click();
  }
  await page.getByRole("button", { name: "Join the room" }).click();
  await expect(page.getByText(`In the room ${read.room}`)).toBeVisible();
}
