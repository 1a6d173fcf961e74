import { type RefObject, useEffect, useMemo, useRef, useState } from "react";
import { Header, ListBox, ListBoxItem, ListBoxSection } from "react-aria-components";
import { FAMILIES, grooveOf, type ShelfIndex, stylesOf } from "../../../engine/catalogue/index.ts";
import type { Asked } from "../../../engine/rounds/index.ts";
import { useLesson } from "../../app/LessonContext.tsx";
import { useWatched } from "../../session/store.ts";
import { FindBox, useSlashKey } from "../../theme/index.ts";
import { isFound } from "./findStyles.ts";
import styles from "./StyleList.module.css";

const FREE = { id: "free", name: "Free choice" } as const;

/**
 * What can be called: free choice, then the styles family by family, then the grooves of the studio's own Shelf. What is
 * in focus is called; a key starts it.
 */
export function StyleList({ asked }: { readonly asked: Asked }) {
  const { round, shelf } = useLesson();
  const { changes } = useWatched(shelf);
  const [typed, setTyped] = useState("");
  const list = useRef<HTMLDivElement>(null);
  const line = useRef<HTMLInputElement>(null);
  useSlashKey(line);

  const called = asked.styleId ?? FREE.id;
  const found = useMemo(() => {
    void changes; // The Shelf changes in place: its count of changes says so.
    return foundBy(typed, shelf.index);
  }, [typed, shelf, changes]);
  useCalledInSight(list, called, typed);

  const call = (id: string): void => {
    const styleId = id === FREE.id ? null : id;
    if (round.get().asked.styleId === styleId) return;
    const entry = styleId === null ? undefined : shelf.index.get(styleId);
    const shelfGroove = entry && grooveOf(entry);
    round.dispatch({ kind: "called", styleId, ...(shelfGroove ? { shelfGroove } : {}) });
  };
  const begin = (id: string): void => {
    call(id);
    round.start();
  };
  const entry = ({ id, name }: Entry) => (
    <ListBoxItem
      key={id}
      id={id}
      className={styles.style ?? ""}
      textValue={name}
      // The first letters of a name move the focus only.
      onFocus={() => call(id)}
      onPress={({ pointerType }) => pointerType === "keyboard" && begin(id)}
      onDoubleClick={() => begin(id)}
    >
      {name}
    </ListBoxItem>
  );

  return (
    <div className={styles.choosing}>
      <FindBox
        label="Find a style"
        keyCap="/"
        typed={typed}
        inputRef={line}
        onType={setTyped}
        onEnter={() => {
          const first = found.entries[0];
          if (first) begin(typed === "" ? called : first.id);
        }}
        onArrowDown={() => optionToEnter(list.current, typed)?.focus()}
      />
      <ListBox
        ref={list}
        className={styles.styles ?? ""}
        aria-label="What is called"
        selectionMode="single"
        selectionBehavior="replace"
        disallowEmptySelection
        selectedKeys={found.entries.some(({ id }) => id === called) ? [called] : []}
        onSelectionChange={(keys) => {
          for (const key of keys) call(String(key));
        }}
        renderEmptyState={() => <p className={styles.none}>No style is called that.</p>}
      >
        {found.free.map(entry)}
        {found.families.map(({ family, entries }) => (
          <ListBoxSection key={family} id={family}>
            <Header className={styles.family ?? ""}>{family}</Header>
            {entries.map(entry)}
          </ListBoxSection>
        ))}
        {found.shelf.length > 0 && (
          <ListBoxSection id="shelf">
            <Header className={styles.family ?? ""}>On our Shelf</Header>
            {found.shelf.map(entry)}
          </ListBoxSection>
        )}
      </ListBox>
    </div>
  );
}

/** More are found by typing a part of their name. Our choice. */
const MOST_OF_THE_SHELF = 60;

interface Entry {
  readonly id: string;
  readonly name: string;
}

/** What is left of the list by what was typed: by family, and in one row. */
function foundBy(typed: string, index: ShelfIndex) {
  const isMeant = ({ name }: Entry): boolean => isFound(name, typed);
  const free: readonly Entry[] = [FREE].filter(isMeant);
  const families = FAMILIES.map((family) => ({ family, entries: stylesOf(family).filter(isMeant) })).filter(
    ({ entries }) => entries.length > 0,
  );
  const shelf = index.find(typed, { kind: "groove", ownOnly: true }).slice(0, MOST_OF_THE_SHELF);
  const entries: readonly Entry[] = [...free, ...families.flatMap((each) => each.entries), ...shelf];
  return { free, families, shelf, entries };
}

/** Where the list is entered from the line above: at what is called, or at the first that was found. */
function optionToEnter(list: HTMLElement | null, typed: string): HTMLElement | null | undefined {
  const first = list?.querySelector<HTMLElement>("[role=option]");
  if (typed !== "") return first;
  return list?.querySelector<HTMLElement>("[role=option][aria-selected=true]") ?? first;
}

/** Scrolls the list, and nothing around it, so that what is called is seen in it with its neighbours. */
function useCalledInSight(list: RefObject<HTMLElement | null>, called: string, typed: string): void {
  // Another style, or another part of the list, is the reason to look again; the list is laid out a moment later.
  useEffect(() => {
    const frame = requestAnimationFrame(() => {
      const option = list.current?.querySelector("[role=option][aria-selected=true]");
      if (list.current && option) showWithin(list.current, option);
    });
    return () => cancelAnimationFrame(frame);
  }, [list, called, typed]);
}

/** One more line above and below shows as well: the heading of the family, or the neighbour. */
function showWithin(list: Element, option: Element): void {
  const place = option.getBoundingClientRect();
  const frame = list.getBoundingClientRect();
  const above = place.top - place.height - frame.top;
  const below = place.bottom + place.height - frame.bottom;
  if (above < 0) list.scrollTop += above;
  else if (below > 0) list.scrollTop += below;
}
