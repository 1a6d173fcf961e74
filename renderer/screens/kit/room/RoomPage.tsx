import { Note, Page } from "../../../app/Page.tsx";
import { hrefOf } from "../../../app/route.ts";
import { useRoom } from "../../../app/useRoom.ts";
import { WideTable } from "../../../charts/index.ts";
import type { RoomState } from "../../../room/roomDesk.ts";
import { useWatched } from "../../../session/store.ts";
import { Button, NumberBox } from "../../../theme/index.ts";
import { CalledHere } from "./CalledHere.tsx";
import { JoinForm } from "./JoinForm.tsx";
import { OpenHere } from "./OpenHere.tsx";
import styles from "./room.module.css";
import { clockWords, delayWords, ROLE_NAMES, standingSentence, strikesWords, wayWords } from "./roomWords.ts";

const BEATS_IN_BAR = 4;
const SLOWEST_BPM = 40;
const FASTEST_BPM = 240;

/** A page of Kit: the room in which somebody far away is the second kit. */
export function RoomPage() {
  const room = useRoom();
  const state = useWatched(room);
  const { standing, wish } = state;
  const isIn = standing !== null && standing.stage !== "refused" && standing.stage !== "left";
  return (
    <Page
      title="Room"
      sub={<p role="status">{standingSentence(standing, wish.room)}</p>}
      margin={<RoomMargin />}
    >
      <p className={styles.back}>
        <a href={hrefOf("kit")}>Back to Kit</a>
      </p>
      {state.troubles.map((sentence) => (
        <p key={sentence} role="alert" className={styles.trouble}>
          {sentence}
        </p>
      ))}
      {isIn ? <InRoom state={state} /> : <JoinForm />}
      {(!isIn || state.openHere !== null) && <OpenHere />}
    </Page>
  );
}

function InRoom({ state }: { readonly state: RoomState }) {
  const room = useRoom();
  const { wish, people, delay, barSeconds, called } = state;
  return (
    <>
      {wish.role === "kit" && <CalledHere called={called} />}
      {wish.role === "player" && (
        <section className={styles.part}>
          <h2>The delay</h2>
          <p className={styles.say}>
            {delay
              ? delayWords(delay)
              : "It is chosen when a far player is here and their clock has answered."}
          </p>
          <div className={styles.narrow}>
            <NumberBox
              label="Tempo, four beats to the bar"
              value={Math.round((60 * BEATS_IN_BAR) / barSeconds)}
              least={SLOWEST_BPM}
              most={FASTEST_BPM}
              onChange={(tempoBpm) => room.setBar((60 * BEATS_IN_BAR) / tempoBpm)}
            />
          </div>
        </section>
      )}
      {wish.role !== "kit" && (
        <section className={styles.part}>
          <h2>Who is here</h2>
          {people.length === 0 ? (
            <p>Nobody else yet. They join by the same address, room and code.</p>
          ) : (
            <WhoIsHere people={people} />
          )}
        </section>
      )}
      <div>
        <Button onPress={() => void room.leave()}>Leave the room</Button>
      </div>
    </>
  );
}

function WhoIsHere({ people }: Pick<RoomState, "people">) {
  return (
    <WideTable label="Who is here">
      <table className={styles.people}>
        <thead>
          <tr>
            <th scope="col">who</th>
            <th scope="col">as</th>
            <th scope="col">there</th>
            <th scope="col">one way</th>
            <th scope="col">their clock is known</th>
            <th scope="col">heard</th>
          </tr>
        </thead>
        <tbody>
          {people.map((person) => (
            <tr key={person.id}>
              <th scope="row">{person.shownName}</th>
              <td>{ROLE_NAMES[person.role]}</td>
              <td>{person.isHere ? "yes" : "gone"}</td>
              <td>{person.clock === null ? "–" : wayWords(person.clock.oneWay)}</td>
              <td>{clockWords(person)}</td>
              <td>{strikesWords(person)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </WideTable>
  );
}

function RoomMargin() {
  return (
    <>
      <Note heading="Never at once">
        <p>
          Over a distance nobody plays at once with somebody else. Turns alternate, so a phrase may sound half
          a bar or a bar later and is still answered in time.
        </p>
      </Note>
      <Note heading="What is sent">
        <p>
          Your name here, the version of the program, and each strike with its time. No voice, no picture,
          nothing of your students.
        </p>
      </Note>
    </>
  );
}
