/**
 * A page before it is printed: what it will look like, whose it is, and the way to the printer. The browser prints
 * what is in the sheet and nothing else, on the paper its own dialog says.
 */
import { useEffect, useId, useLayoutEffect, useRef, useState } from "react";
import { Dialog, Heading, Modal, ModalOverlay } from "react-aria-components";
import { Button } from "../../theme/index.ts";
import { dayWords } from "./dayWords.ts";
import { FillSheet } from "./FillSheet.tsx";
import { GrooveSheet } from "./GrooveSheet.tsx";
import { LessonPage } from "./LessonPage.tsx";
import { NextTimePage } from "./NextTimePage.tsx";
import { PartSheet } from "./PartSheet.tsx";
import { PhraseSheet } from "./PhraseSheet.tsx";
import { PracticePage } from "./PracticePage.tsx";
import styles from "./print.module.css";
import { SHEET_NAMES, type Sheet, type SheetHead, sheetOf } from "./sheet.ts";
import { TallyPage } from "./TallyPage.tsx";

export interface PrintViewProps {
  readonly sheet: Sheet;
  readonly onClose: () => void;
}

export function PrintView({ sheet, onClose }: PrintViewProps) {
  const [name, setName] = useState(whoseOf(sheet));
  const [day, setDay] = useState(dayOf(sheet));
  const title = `${SHEET_NAMES[sheet.kind]}: ${sheetOf(sheet)}`;
  useTitle(title);
  useEscape(onClose);
  return (
    <ModalOverlay
      isOpen
      isDismissable
      onOpenChange={(isOpen) => isOpen || onClose()}
      className={styles.ground ?? ""}
      data-print-ground
    >
      <Modal className={styles.modal ?? ""}>
        <Dialog className={styles.dialog ?? ""}>
          <div className={styles.controls}>
            <Heading slot="title" className={styles.title ?? ""}>
              {title}
            </Heading>
            <div className={styles.row}>
              <Line label="Name" remark="empty: a line to write on" text={name} onType={setName} />
              <Line label="Date" text={day} onType={setDay} />
              <Button weight="go" autoFocus onPress={() => window.print()}>
                Print
              </Button>
              <Button onPress={onClose}>Back</Button>
              <kbd>Esc</kbd>
            </div>
          </div>
          <article aria-label={title} data-print-sheet>
            <Drawn sheet={sheet} head={{ name: name.trim(), day: day.trim() }} />
          </article>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

function whoseOf(sheet: Sheet): string {
  if (sheet.kind === "lesson") return sheet.lesson.who;
  return sheet.kind === "next-time" || sheet.kind === "tally" ? sheet.nickname : "";
}

function dayOf(sheet: Sheet): string {
  if (sheet.kind === "lesson") return sheet.lesson.day;
  if (sheet.kind === "tally") return sheet.day;
  return sheet.kind === "practice" ? dayWords(sheet.day) : "";
}

function Drawn({ sheet, head }: { readonly sheet: Sheet; readonly head: SheetHead }) {
  switch (sheet.kind) {
    case "groove":
      return <GrooveSheet {...sheet} head={head} />;
    case "fill":
      return <FillSheet {...sheet} head={head} />;
    case "phrase":
      return <PhraseSheet {...sheet} head={head} />;
    case "part":
      return <PartSheet {...sheet} head={head} />;
    case "practice":
      return <PracticePage {...sheet} head={head} />;
    case "lesson":
      return <LessonPage report={sheet.lesson} head={head} />;
    case "next-time":
      return <NextTimePage {...sheet} head={head} />;
    case "tally":
      return <TallyPage {...sheet} head={head} />;
  }
}

interface LineProps {
  readonly label: string;
  readonly remark?: string;
  readonly text: string;
  readonly onType: (text: string) => void;
}

/** More letters do not fit beside one another on the sheet. */
const MOST_LETTERS = 60;

function Line({ label, remark, text, onType }: LineProps) {
  const id = useId();
  return (
    <div className={styles.line}>
      <label htmlFor={id}>
        {label}
        {remark === undefined ? "" : `, ${remark}`}
      </label>
      <input
        id={id}
        type="text"
        autoComplete="off"
        maxLength={MOST_LETTERS}
        value={text}
        onChange={({ currentTarget }) => onType(currentTarget.value)}
      />
    </div>
  );
}

/** Printing hides the controls, and a browser may then forget which of them had the focus: Escape works from anywhere. */
function useEscape(onEscape: () => void): void {
  const latest = useRef(onEscape);
  useLayoutEffect(() => {
    latest.current = onEscape;
  });
  // As soon as the page is drawn: a key pressed in that moment counts as well.
  useLayoutEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      if (event.key !== "Escape") return;
      // What lies under the page must not take it as its own.
      event.preventDefault();
      event.stopPropagation();
      latest.current();
    };
    window.addEventListener("keydown", onKeyDown, { capture: true });
    return () => window.removeEventListener("keydown", onKeyDown, { capture: true });
  }, []);
}

/** The window's title is what a browser calls the PDF it makes. */
function useTitle(title: string): void {
  useEffect(() => {
    const before = document.title;
    document.title = title;
    return () => {
      document.title = before;
    };
  }, [title]);
}
