import { useState } from "react";
import { STYLES, styleById } from "../../../../engine/catalogue/index.ts";
import type { Person, PersonId } from "../../../../engine/rooms/index.ts";
import { Note, Page } from "../../../app/Page.tsx";
import { hrefOf } from "../../../app/route.ts";
import { useRoom } from "../../../app/useRoom.ts";
import { WideTable } from "../../../charts/index.ts";
import { useWatched } from "../../../session/store.ts";
import { Button, Choice } from "../../../theme/index.ts";
import { JoinForm } from "../../kit/room/JoinForm.tsx";
import styles from "../../kit/room/room.module.css";
import { standingSentence } from "../../kit/room/roomWords.ts";
import { clearnessWords, heardWords, leanWords, voicesWords } from "./labWords.ts";
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
    document.getElementById(rowButtonId(id))?.focus();
  };
  return (
    <Page
      title="Kit lab"
      sub={<p role="status">{subWords(standing, wish.room, kits)}</p>}
      margin={<LabMargin />}
    >
      <p className={styles.back}>
        <a href={hrefOf("desk")}>Back to Desk</a>
      </p>
      {troubles.map((sentence) => (
        <p key={sentence} role="alert" className={styles.trouble}>
          {sentence}
        </p>
      ))}
      {!isDesk && <JoinForm as="desk" />}
      {isDesk && (
        <>
          <div className={styles.form}>
            <Choice
              label="Call to all kits"
              options={CALLS}
              chosen={called === undefined ? null : (called ?? FREE)}
              onChoose={(id) => room.callStyle(id === FREE ? null : id)}
            />
            <p className={`${styles.soft} ${styles.beside}`}>{calledWords(called)}</p>
          </div>
          {one && <OpenKit key={one.id} person={one} onClose={() => close(one.id)} />}
          {kits.length === 0 ? (
            <p className={styles.say}>
              No kit yet. At each kit: Kit, Room, then join as a kit of a lab by the same address, room and
              code.
            </p>
          ) : (
            <Kits kits={kits} onOpen={setOpened} />
          )}
          <div>
            <Button onPress={() => void room.leave()}>Leave the room</Button>
          </div>
        </>
      )}
    </Page>
  );
}

function Kits({
  kits,
  onOpen,
}: {
  readonly kits: readonly Person[];
  readonly onOpen: (id: PersonId) => void;
}) {
  return (
    <section className={styles.part}>
      <h2>Kits</h2>
      <WideTable label="Kits">
        <table className={`${styles.people} ${styles.lab}`}>
          <thead>
            <tr>
              <th scope="col">kit</th>
              <th scope="col">plays</th>
              <th scope="col">tempo</th>
              <th scope="col">lean</th>
              <th scope="col">spread</th>
              <th scope="col">voices</th>
            </tr>
          </thead>
          <tbody>
            {kits.map((kit) => (
              <tr key={kit.id}>
                <th scope="row">
                  <button
                    type="button"
                    id={rowButtonId(kit.id)}
                    className={styles.open}
                    onClick={() => onOpen(kit.id)}
                  >
                    {kit.shownName}
                  </button>
                  {!kit.isHere && " (gone)"}
                </th>
                <td>{heardWords(kit)}</td>
                <td>{kit.heard?.tempoBpm ? Math.round(kit.heard.tempoBpm) : "–"}</td>
                <td>{leanWords(kit)}</td>
                <td>{clearnessWords(kit)}</td>
                <td>{voicesWords(kit)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </WideTable>
    </section>
  );
}

function rowButtonId(id: PersonId): string {
  return `kit-${id}`;
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
        The desk hears every kit; a kit hears the desk, and no other kit. Each kit's own computer listens to
        what is played there, and tells the desk every few seconds.
      </p>
    </Note>
  );
}
