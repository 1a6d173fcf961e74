import { useState } from "react";
import { STYLES, styleById } from "../../../../engine/catalogue/index.ts";
import type { Person, PersonId } from "../../../../engine/rooms/index.ts";
import { Note, Page } from "../../../app/Page.tsx";
import { hrefOf } from "../../../app/route.ts";
import { useRoom } from "../../../app/useRoom.ts";
import { useWatched } from "../../../session/store.ts";
import { Button, Choice } from "../../../theme/index.ts";
import { JoinForm } from "../../kit/room/JoinForm.tsx";
import styles from "../../kit/room/room.module.css";
import { standingSentence } from "../../kit/room/roomWords.ts";
import lab from "./KitLab.module.css";
import { LabKits, openButtonId } from "./LabKits.tsx";
import { OpenKit } from "./OpenKit.tsx";

const FREE = "free";
const CALLS = [{ id: FREE, name: "whatever they like" }, ...STYLES.map(({ id, name }) => ({ id, name }))];

/** A page of Desk: the kits of a lab, who plays what and how, a style called to all, and one of them opened. */
export function KitLab() {
  const room = useRoom();
  const { standing, wish, people, called, troubles } = useWatched(room);
  const [opened, setOpened] = useState<PersonId | null>(null);
  const isIn = standing?.stage === "joined" || standing?.stage === "away" || standing?.stage === "joining";
  const isDesk = isIn && wish.role === "desk";
  const kits = people.filter(({ role }) => role === "kit" || role === "player");
  const one = kits.find(({ id }) => id === opened);
  const close = (id: PersonId): void => {
    setOpened(null);
    // Back to where it was opened, however far down that is.
    document.getElementById(openButtonId(id))?.focus();
  };
  return (
    <Page
      title="Kit lab"
      sub={<p role="status">{subWords(standing, wish.room, kits)}</p>}
      margin={<LabMargin />}
      isWide={isDesk}
    >
      {troubles.map((sentence) => (
        <p key={sentence} role="alert" className={styles.trouble}>
          {sentence}
        </p>
      ))}
      {!isDesk && (
        <>
          <p className={styles.back}>
            <a href={hrefOf("desk")}>Back to Desk</a>
          </p>
          <JoinForm as="desk" />
        </>
      )}
      {isDesk && (
        <>
          <div className={lab.controls}>
            <div className={lab.call}>
              <Choice
                label="Call to all kits"
                options={CALLS}
                chosen={called === undefined ? null : (called ?? FREE)}
                onChoose={(id) => room.callStyle(id === FREE ? null : id)}
              />
            </div>
            <p className={styles.soft}>{calledWords(called)}</p>
            <Button onPress={() => void room.leave()}>Leave the room</Button>
            <a className={lab.back} href={hrefOf("desk")}>
              Back to Desk
            </a>
          </div>
          {one && <OpenKit key={one.id} person={one} onClose={() => close(one.id)} />}
          {kits.length === 0 ? (
            <p className={styles.say}>
              No kit yet. At each kit: Kit, Room, then join as a kit of a lab by the same address, room and
              code.
            </p>
          ) : (
            <LabKits kits={kits} onOpen={setOpened} />
          )}
        </>
      )}
    </Page>
  );
}

function subWords(
  standing: Parameters<typeof standingSentence>[0],
  room: string,
  kits: readonly Person[],
): string {
  if (standing?.stage !== "joined") return standingSentence(standing, room);
  const here = kits.filter(({ isHere }) => isHere).length;
  return `In the room ${room}, ${here === 1 ? "1 kit" : `${here} kits`} here.`;
}

function calledWords(called: string | null | undefined): string {
  if (called === undefined) return "Nothing is called yet.";
  return called === null ? "Called: whatever they like." : `Called: ${styleById(called)?.name ?? called}.`;
}

function LabMargin() {
  return (
    <Note heading="Who hears what">
      <p>
        The desk hears every kit; a kit hears the desk, and no other kit. Each kit’s own computer listens to
        what is played there, and tells the desk every few seconds.
      </p>
    </Note>
  );
}
