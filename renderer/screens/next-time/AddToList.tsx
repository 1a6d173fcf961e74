import { type RefObject, useState } from "react";
import { Input, Label, TextField } from "react-aria-components";
import { findItems, type ItemId, type OwnNames, type Section } from "../../../engine/memory/index.ts";
import { Button, Choice } from "../../theme/index.ts";
import { fullName } from "./listWords.ts";
import styles from "./NextTime.module.css";

const PARTS: readonly { readonly id: Section; readonly name: string }[] = [
  { id: "refresh", name: "refresh" },
  { id: "new", name: "new" },
];
/** As much as a line of the list holds. */
const MOST_LETTERS = 200;

/** A line to add to the list with: an item by its name, or the teacher's own words as they stand. */
export function AddToList({
  met,
  ownNames,
  lineRef,
  onAdd,
  onAddWords,
}: {
  readonly met: readonly ItemId[];
  readonly ownNames: OwnNames;
  readonly lineRef: RefObject<HTMLInputElement | null>;
  readonly onAdd: (item: ItemId, section: Section) => void;
  readonly onAddWords: (words: string, section: Section) => void;
}) {
  const [typed, setTyped] = useState("");
  const [section, setSection] = useState<Section>("new");
  const words = typed.trim();
  const found = findItems(words, met, ownNames);
  const addWords = (): void => {
    if (words === "") return;
    onAddWords(words, section);
    setTyped("");
  };
  return (
    <section className={styles.add} aria-label="Add to the list">
      <TextField className={styles.field ?? ""} value={typed} onChange={setTyped} maxLength={MOST_LETTERS}>
        <Label>
          Add a groove, a fill, or a line of your own <kbd>N</kbd>
        </Label>
        <Input
          ref={lineRef}
          autoComplete="off"
          onKeyDown={(event) => {
            if (event.key === "Enter") addWords();
            else if (event.key === "Escape" && typed === "") event.currentTarget.blur();
            else if (event.key === "Escape") setTyped("");
            else return;
            event.preventDefault();
          }}
        />
      </TextField>
      <Choice label="Part" options={PARTS} chosen={section} onChoose={setSection} />
      {words !== "" && (
        <div className={styles.found}>
          {found.map((item) => (
            <Button
              key={item}
              onPress={() => {
                onAdd(item, section);
                setTyped("");
              }}
            >
              {fullName(item, ownNames)}
            </Button>
          ))}
          <Button weight="quiet" onPress={addWords}>
            As it stands: “{words}”
          </Button>
        </div>
      )}
    </section>
  );
}
