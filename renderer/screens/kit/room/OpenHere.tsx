import { useState } from "react";
import { useRoom } from "../../../app/useRoom.ts";
import { type ShellDoor, shellDoorOf } from "../../../shell/index.ts";
import { Button } from "../../../theme/index.ts";
import styles from "./room.module.css";

/** How a room is opened, where there is none yet: here in the desktop shell, else from a terminal. */
export function OpenHere() {
  const door = shellDoorOf(window);
  return (
    <section className={styles.part}>
      <h2>No room yet?</h2>
      {door ? (
        <OpenByShell door={door} />
      ) : (
        <p>
          On one computer of the house, <code>npm run room</code> opens one and prints its address and code.
        </p>
      )}
      <p>
        Any MQTT 5 broker does as well: its address with <code>wss://</code>, your user name and password
        there.
      </p>
    </section>
  );
}

type Opened = Awaited<ReturnType<typeof askToOpen>>;

function askToOpen(door: ShellDoor, name: string) {
  return door.ask("openRoom", { name });
}

function OpenByShell({ door }: { readonly door: ShellDoor }) {
  const room = useRoom();
  const [opened, setOpened] = useState<Opened | "opening" | null>(null);
  const failed = (error: unknown): void => setOpened({ kind: "failed", reason: String(error) });
  const open = (): void => {
    setOpened("opening");
    askToOpen(door, room.get().wish.room.trim() || "Studio").then(setOpened, failed);
  };
  const close = (): void => {
    door.ask("closeRoom", {}).then(() => setOpened(null), failed);
  };
  if (opened !== null && opened !== "opening" && opened.kind === "open")
    return (
      <>
        <p role="status" className={styles.say}>
          The room {opened.name} is open at {opened.addresses.join(" or ")}, code {opened.code}.
        </p>
        <Button onPress={close}>Close the room</Button>
      </>
    );
  return (
    <>
      {opened !== null && opened !== "opening" && (
        <p role="alert" className={styles.trouble}>
          {opened.reason}
        </p>
      )}
      <Button isDisabled={opened === "opening"} onPress={open}>
        Open a room here
      </Button>
    </>
  );
}
