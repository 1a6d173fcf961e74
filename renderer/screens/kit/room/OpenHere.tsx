import { useState } from "react";
import { useRoom } from "../../../app/useRoom.ts";
import { useWatched } from "../../../session/store.ts";
import { type ShellDoor, shellDoorOf } from "../../../shell/index.ts";
import { Button, TextBox } from "../../../theme/index.ts";
import styles from "./room.module.css";

/** How a room is opened, where there is none yet: here in the desktop shell, else from a terminal. */
export function OpenHere() {
  const door = shellDoorOf(window);
  const { openHere } = useWatched(useRoom());
  return (
    <section className={styles.part}>
      <h2>{openHere ? "The room on this computer" : "No room yet?"}</h2>
      {door ? (
        <OpenByShell door={door} />
      ) : (
        <p>
          On one computer of the house, <code>npm run room</code> opens one and prints its address and code.
        </p>
      )}
      {!openHere && (
        <p>
          Any MQTT 5 broker does as well: its address with <code>wss://</code>, your user name and password
          there.
        </p>
      )}
    </section>
  );
}

/** What others need to join stays there while it is open, joined or not. */
function OpenByShell({ door }: { readonly door: ShellDoor }) {
  const room = useRoom();
  const { openHere } = useWatched(room);
  const [name, setName] = useState(() => room.get().wish.room.trim() || "Studio");
  const [isOpening, setIsOpening] = useState(false);
  const [trouble, setTrouble] = useState<string | null>(null);
  const failed = (error: unknown): void => setTrouble(String(error));
  const open = (): void => {
    if (isOpening || name.trim() === "") return;
    setIsOpening(true);
    setTrouble(null);
    door
      .ask("openRoom", { name: name.trim() })
      .then((answer) => {
        if (answer.kind === "open") room.opened(answer);
        else setTrouble(answer.reason);
      })
      .catch(failed)
      .finally(() => setIsOpening(false));
  };
  const close = async (): Promise<void> => {
    if (room.get().wish.room.trim() === openHere?.name) await room.leave();
    await door.ask("closeRoom", {});
    room.opened(null);
  };
  return (
    <>
      {trouble !== null && (
        <p role="alert" className={styles.trouble}>
          {trouble}
        </p>
      )}
      {openHere ? (
        <>
          <p role="status" className={styles.say}>
            The room {openHere.name} is open at {openHere.addresses.join(" or ")}, code {openHere.code}.
          </p>
          <Button onPress={() => void close().catch(failed)}>Close the room</Button>
        </>
      ) : (
        <div className={styles.narrow}>
          <TextBox label="Name of the new room" value={name} most={40} onChange={setName} onEnter={open} />
          <Button isDisabled={isOpening || name.trim() === ""} onPress={open}>
            Open a room here
          </Button>
        </div>
      )}
    </>
  );
}
