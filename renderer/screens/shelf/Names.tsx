import { Input, Label, TextArea, TextField } from "react-aria-components";
import { STYLES } from "../../../engine/catalogue/index.ts";
import { LEVELS, type Level, levelName } from "../../../engine/score/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { Choice } from "../../theme/index.ts";
import { changed, type Draft, withLevel } from "./draft.ts";
import styles from "./Shelf.module.css";

const NONE = "none";
const STYLE_CHOICES = [{ id: NONE, name: "of no style" }, ...STYLES.map(({ id, name }) => ({ id, name }))];
const LEVEL_CHOICES: readonly { readonly id: Level | typeof NONE; readonly name: string }[] = [
  { id: NONE, name: "not said" },
  ...LEVELS.map((id) => ({ id, name: levelName(id) })),
];

/** What the studio calls it, and where it belongs. */
export function Names({ draft }: { readonly draft: Draft }) {
  const { shelfDesk } = useLesson();
  const { name, alsoNamed, styleId, level } = draft.now;
  const levels = draft.kind === "fill" ? LEVEL_CHOICES.filter(({ id }) => id !== NONE) : LEVEL_CHOICES;
  return (
    <div className={styles.fields}>
      <TextField
        className={`${styles.field} ${styles.wide}`}
        value={name}
        onChange={(next) => shelfDesk.change((now) => changed(now, { name: next }))}
        autoFocus={draft.kept === null && name === ""}
      >
        <Label>Name</Label>
        <Input autoComplete="off" />
      </TextField>
      <TextField
        className={`${styles.field} ${styles.wide}`}
        value={alsoNamed}
        onChange={(next) => shelfDesk.change((now) => changed(now, { alsoNamed: next }))}
      >
        <Label>The studio also calls it, one name a line</Label>
        <TextArea rows={1 + Math.min(4, alsoNamed.split("\n").length - 1)} spellCheck="false" />
      </TextField>
      <Choice
        label="Style"
        options={STYLE_CHOICES}
        chosen={styleId ?? NONE}
        onChoose={(id) => shelfDesk.change((now) => changed(now, { styleId: id === NONE ? null : id }))}
      />
      <Choice
        label="Level"
        options={levels}
        chosen={level ?? NONE}
        onChoose={(id) => shelfDesk.change((now) => withLevel(now, id === NONE ? null : id))}
      />
    </div>
  );
}
