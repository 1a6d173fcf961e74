import { type ReactNode, useEffect, useRef, useState } from "react";
import type { OwnNames } from "../../../engine/memory/index.ts";
import type { Play, Shown } from "../../../engine/rounds/index.ts";
import { Note, Page } from "../../app/Page.tsx";
import { useProgram } from "../../app/ProgramContext.tsx";
import { hrefOf, useRest } from "../../app/route.ts";
import { useStudio } from "../../app/StudioContext.tsx";
import { dayWords } from "../../out/print/dayWords.ts";
import { PrintPages } from "../../out/print/PrintPages.tsx";
import type { Sheet, TallyPart } from "../../out/print/sheet.ts";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { struckWords } from "../kit/commandWords.ts";
import { doCommand } from "./doCommand.ts";
import type { FramedRound, RoundCommand } from "./framedRound.ts";
import styles from "./RoundFrame.module.css";
import { ShownTally } from "./ShownTally.tsx";
import { type RoundOnPaper, tallySheet } from "./tallySheet.ts";
import { COMMAND_KEYS, PAUSE_KEY, START_NOW, useFrameKeys } from "./useFrameKeys.ts";
import { usePlayerName } from "./usePlayerName.ts";
import { useRoundKey } from "./useRoundKey.ts";

/** What each command is called where a round does not say it in words of its own. */
const COMMAND_NAMES: Readonly<Record<RoundCommand, string>> = {
  next: "Next",
  again: "Again",
  "turn-round": "Turn round",
  stop: "End",
};
const IN_ORDER: readonly RoundCommand[] = ["next", "again", "turn-round", "stop"];

/**
 * The page of a round: its name, three lines that say how it goes, what the round itself shows, and at the foot what can be
 * done next, by a button, a key, or with the sticks in hand.
 */
export function RoundFrame({
  round,
  title,
  sub,
  card,
  names = {},
  before,
  shown,
  ownNames,
  tally,
  tables,
  margin,
  actions,
  children,
}: {
  readonly round: FramedRound;
  readonly title: string;
  readonly sub?: ReactNode;
  /** How it goes, in three lines. */
  readonly card: readonly [string, string, string];
  /** What a command is called in this round. */
  readonly names?: Readonly<Partial<Record<RoundCommand, string>>>;
  /** What can be chosen before it begins. */
  readonly before?: ReactNode;
  /** What it showed, for the tally once it is over. */
  readonly shown: readonly Shown[];
  /** Names of what is not of the stock. */
  readonly ownNames?: OwnNames;
  /** What is told besides the tally once it is over. */
  readonly tally?: ReactNode;
  /** The same in tables, for paper. */
  readonly tables?: () => readonly TallyPart[];
  readonly margin?: ReactNode;
  /** Further buttons at the foot, while it runs. */
  readonly actions?: ReactNode;
  /** The round itself, while it runs. */
  readonly children: ReactNode;
}) {
  const { stage } = useWatched(round);
  useStartedAtOnce(round);
  const { book } = useStudio();
  useFrameKeys(round, book);
  useBeginningSeen(stage);
  return (
    <Page
      title={title}
      sub={
        <p role="status">
          {stage === "paused" ? "Paused. Nothing is sounded, and nothing counts." : (sub ?? SUB[stage])}
        </p>
      }
      margin={
        <>
          {stage !== "ready" && <HowItGoes card={card} />}
          {margin}
          <WithTheSticks />
        </>
      }
      takesFocus
    >
      {stage === "ready" && (
        <>
          <ol className={styles.card} aria-label="How it goes">
            {card.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ol>
          {before}
        </>
      )}
      {(stage === "running" || stage === "paused") && (
        <div className={styles.play} inert={stage === "paused"}>
          {children}
        </div>
      )}
      {stage === "over" && (
        <>
          <ShownTally shown={shown} {...(ownNames ? { ownNames } : {})} />
          {tally}
          {shown.length > 0 && (
            <OnPaper
              title={title}
              shown={shown}
              tables={tables ?? noTables}
              {...(ownNames ? { ownNames } : {})}
            />
          )}
        </>
      )}
      <Controls round={round} stage={stage} names={names} actions={actions} />
    </Page>
  );
}

const SUB: Readonly<Record<Play<unknown>["stage"], string>> = {
  ready: "Begin when you are ready.",
  running: "The round is on.",
  paused: "",
  over: "The round is over. This is what it showed.",
};

/** Started from the desk: it begins with the page. */
function useStartedAtOnce(round: FramedRound): void {
  const [now] = useRest();
  const isBegun = useRef(false);
  useEffect(() => {
    if (now !== START_NOW || isBegun.current) return;
    isBegun.current = true;
    // Going back to this page later must not begin another one.
    window.history.replaceState(null, "", window.location.hash.replace(/\/[^/]*$/, ""));
    if (round.get().stage === "over") round.anew();
    if (round.get().stage === "ready") round.begin();
  }, [now, round]);
}

/** At 200 % zoom the button that begins lies below what it begins. */
function useBeginningSeen(stage: Play<unknown>["stage"]): void {
  useEffect(() => {
    if (stage === "running" || stage === "over") window.scrollTo(0, 0);
  }, [stage]);
}

function Controls({
  round,
  stage,
  names,
  actions,
}: {
  readonly round: FramedRound;
  readonly stage: Play<unknown>["stage"];
  readonly names: Readonly<Partial<Record<RoundCommand, string>>>;
  readonly actions: ReactNode;
}) {
  const { book, fiveLeft } = useStudio();
  const dealt = useWatched(fiveLeft);
  // What was dealt is over before its minutes are.
  const isDealtOver = stage === "over" && dealt.stage === "on";
  useRoundKey(COMMAND_KEYS.next.code, isDealtOver ? () => fiveLeft.next() : null);
  if (stage === "ready")
    return (
      <div className={styles.controls}>
        <Button weight="go" onPress={() => round.begin()}>
          Begin
        </Button>
        <span className={styles.hint}>Space or Enter</span>
      </div>
    );
  if (stage === "over")
    return (
      <div className={styles.controls}>
        {isDealtOver && (
          <Button weight="go" aria-keyshortcuts={COMMAND_KEYS.next.shown} onPress={() => fiveLeft.next()}>
            Go on with Five Left <kbd>{COMMAND_KEYS.next.shown}</kbd>
          </Button>
        )}
        <Button
          weight={isDealtOver ? "plain" : "go"}
          aria-keyshortcuts={COMMAND_KEYS.again.shown}
          onPress={() => doCommand("again", "button", round, book)}
        >
          Once more <kbd>{COMMAND_KEYS.again.shown}</kbd>
        </Button>
        <Button onPress={() => round.anew()}>Set it differently</Button>
        <a className={styles.back} href={hrefOf("desk")}>
          Back to Desk
        </a>
      </div>
    );
  const acts = round.commands();
  const isPaused = stage === "paused";
  return (
    <div className={styles.controls}>
      {IN_ORDER.map((command) => (
        <Button
          key={command}
          weight={command === "next" ? "go" : "plain"}
          isDisabled={acts[command] === undefined}
          aria-keyshortcuts={COMMAND_KEYS[command].shown}
          onPress={() => doCommand(command, "button", round, book)}
        >
          {names[command] ?? COMMAND_NAMES[command]} <kbd>{COMMAND_KEYS[command].shown}</kbd>
        </Button>
      ))}
      {actions}
      <Button
        weight="quiet"
        aria-keyshortcuts={PAUSE_KEY.shown}
        onPress={() => (isPaused ? round.resume() : round.pause())}
      >
        {isPaused ? "Go on" : "Pause"} <kbd>{PAUSE_KEY.shown}</kbd>
      </Button>
    </div>
  );
}

function noTables(): readonly TallyPart[] {
  return [];
}

/** The tally as a page to print. */
function OnPaper({
  title,
  shown,
  ownNames,
  tables,
}: Pick<RoundOnPaper, "title" | "shown" | "ownNames"> & { readonly tables: () => readonly TallyPart[] }) {
  const [sheet, setSheet] = useState<Sheet | null>(null);
  const nameOf = usePlayerName();
  return (
    <p>
      <Button
        onPress={() =>
          setSheet(
            tallySheet({
              title,
              day: dayWords(new Date()),
              shown,
              nameOf,
              tables: tables(),
              ...(ownNames ? { ownNames } : {}),
            }),
          )
        }
      >
        On paper
      </Button>
      <PrintPages sheet={sheet} onClose={() => setSheet(null)} />
    </p>
  );
}

function HowItGoes({ card }: { readonly card: readonly string[] }) {
  return (
    <Note heading="How it goes">
      {card.map((line) => (
        <p key={line}>{line}</p>
      ))}
    </Note>
  );
}

/** How the commands are struck on this kit. */
function WithTheSticks() {
  const { session } = useProgram();
  const [kit] = session.kits;
  const { map } = useWatched(kit.kitMap);
  useWatched(kit.commands);
  const strikes = kit.commands.strikes();
  const set = IN_ORDER.flatMap((command) => {
    const strike = strikes[command];
    return strike ? [`${COMMAND_NAMES[command]}: ${struckWords(strike, map)}.`] : [];
  });
  return (
    <Note heading="With the sticks">
      {set.map((line) => (
        <p key={line}>{line}</p>
      ))}
      <p>
        {set.length === 0 && "No strike is set for next, again, turn round or stop. "}
        <a href={hrefOf("kit")}>Commands are set in Kit.</a>
      </p>
    </Note>
  );
}
