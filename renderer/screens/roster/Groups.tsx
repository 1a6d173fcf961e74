import { useState } from "react";
import type { Group } from "../../../engine/records/index.ts";
import { Note } from "../../app/Page.tsx";
import { useStudio } from "../../app/StudioContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button, TextBox } from "../../theme/index.ts";
import styles from "./Roster.module.css";

/** The groups students are taught in: made, renamed and dissolved here; who is in one is set on the student's page. */
export function Groups() {
  const { roster } = useStudio();
  const { groups } = useWatched(roster);
  const [name, setName] = useState("");
  const make = async (): Promise<void> => {
    if (name.trim() === "") return;
    if (await roster.keepGroup({ name: name.trim(), studentIds: [] })) setName("");
  };
  return (
    <Note heading="Groups">
      {groups.length > 0 && (
        <ul className={styles.groups}>
          {groups.map((group) => (
            <OneGroup key={group.id} group={group} />
          ))}
        </ul>
      )}
      <TextBox label="A new group" value={name} most={60} onChange={setName} onEnter={() => void make()} />
      <Button weight="quiet" isDisabled={name.trim() === ""} onPress={() => void make()}>
        Make the group
      </Button>
    </Note>
  );
}

function OneGroup({ group }: { readonly group: Group }) {
  const { roster } = useStudio();
  const count = group.studentIds.length;
  return (
    <li>
      <span>
        {group.name}, {count === 1 ? "1 student" : `${count} students`}
      </span>
      <Button weight="quiet" onPress={() => void roster.dissolveGroup(group.id)}>
        Dissolve <span className="heard-only">{group.name}</span>
      </Button>
    </li>
  );
}
