import { useState } from "react";
import { ROLES, ROOM_PORT, type Role } from "../../../../engine/rooms/index.ts";
import { useRoom } from "../../../app/useRoom.ts";
import type { KeptWish } from "../../../room/keptWish.ts";
import { Button, Choice, TextBox } from "../../../theme/index.ts";
import styles from "./room.module.css";
import { ROLE_NAMES } from "./roomWords.ts";

const ROLE_OPTIONS: readonly { readonly id: Role; readonly name: string }[] = ROLES.map((id) => ({
  id,
  name: ROLE_NAMES[id],
}));

/** Where the room is, who comes in, and as what. The code is asked each time: it is not kept. */
export function JoinForm({ as }: { readonly as?: Role }) {
  const room = useRoom();
  const [wish, setWish] = useState<KeptWish>(() => ({ ...room.get().wish, ...(as ? { role: as } : {}) }));
  const [code, setCode] = useState("");
  const change = (to: Partial<KeptWish>): void => setWish({ ...wish, ...to });
  const missing = missingOf(wish, code);
  const join = (): void => {
    if (missing === null) void room.join(wish, code);
  };
  return (
    <form
      className={styles.form}
      onSubmit={(event) => {
        event.preventDefault();
        join();
      }}
    >
      <TextBox
        label="Your name in the room"
        value={wish.name}
        most={60}
        onChange={(name) => change({ name })}
        onEnter={join}
      />
      <TextBox
        label="Address"
        hint={`As it was printed where the room was opened: 192.168.1.20:${ROOM_PORT}.`}
        value={wish.address}
        most={200}
        onChange={(address) => change({ address })}
        onEnter={join}
      />
      <TextBox
        label="Room"
        value={wish.room}
        most={40}
        onChange={(name) => change({ room: name })}
        onEnter={join}
      />
      <TextBox
        label="Code"
        hint="Asked each time; it is not kept."
        type={wish.username === "" ? "text" : "password"}
        value={code}
        most={200}
        onChange={setCode}
        onEnter={join}
      />
      {as === undefined && (
        <Choice
          label="You are here as one who"
          options={ROLE_OPTIONS}
          chosen={wish.role}
          onChoose={(role) => change({ role })}
        />
      )}
      <TextBox
        label="User name at another broker"
        hint="Left empty for a room opened with this program."
        value={wish.username}
        most={200}
        onChange={(username) => change({ username })}
        onEnter={join}
      />
      <div className={styles.act}>
        <Button weight="go" isDisabled={missing !== null} onPress={join}>
          Join the room
        </Button>
        {missing !== null && <p className={styles.soft}>{missing}</p>}
      </div>
    </form>
  );
}

/** What is still to be filled in. */
function missingOf({ name, address, room }: KeptWish, code: string): string | null {
  if (name.trim() === "") return "Your name is missing.";
  if (address.trim() === "") return "The address is missing.";
  if (room.trim() === "") return "The room’s name is missing.";
  return code.trim() === "" ? "The code is missing." : null;
}
