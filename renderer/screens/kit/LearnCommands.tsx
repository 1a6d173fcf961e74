import { useEffect, useRef, useState } from "react";
import type { Hit } from "../../../engine/kit/index.ts";
import { ALONE_SECONDS, COMMANDS, type Command, type Offered, offered } from "../../session/commandStrike.ts";
import type { HeardKit } from "../../session/heardKit.ts";
import { useWatched } from "../../session/store.ts";
import { Button } from "../../theme/index.ts";
import { askedWords, COMMAND_DOES, COMMAND_NAMES, refusedWords, struckWords } from "./commandWords.ts";
import styles from "./Kit.module.css";

/** Which strikes are commands on this kit: each can be learnt by being struck, and taken away. */
export function LearnCommands({ kit, onEnd }: { readonly kit: HeardKit; readonly onEnd: () => void }) {
  const { trouble } = useWatched(kit.commands);
  const { map } = useWatched(kit.kitMap);
  const [asked, setAsked] = useState<Command | null>(null);
  const [refused, setRefused] = useState<Extract<Offered, { kind: "refused" }> | null>(null);
  const region = useRef<HTMLElement>(null);
  useEffect(() => region.current?.focus(), []);
  useEffect(() => {
    if (asked === null) return;
    return whenStruck(kit, (strikes) => {
      const offer = offered(strikes, map);
      if (offer.kind === "refused") return setRefused(offer);
      kit.commands.set(asked, offer.strike);
      setRefused(null);
      setAsked(null);
    });
  }, [kit, map, asked]);
  const ask = (command: Command | null): void => {
    setRefused(null);
    setAsked(command);
  };
  const strikes = kit.commands.strikes();
  return (
    <section ref={region} tabIndex={-1} className={styles.learn} aria-label="Commands with the sticks">
      <h2>Commands with the sticks</h2>
      <div role="status">
        <p className={styles.say}>{askedWords(asked)}</p>
        {refused && <p>{refusedWords(refused.why)}</p>}
      </div>
      <table className={styles.commands}>
        <thead>
          <tr>
            <th scope="col">command</th>
            <th scope="col">what it does</th>
            <th scope="col">how it is struck</th>
            <th scope="col">
              <span className="heard-only">change</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {COMMANDS.map((command) => {
            const strike = strikes[command];
            const name = COMMAND_NAMES[command];
            return (
              <tr key={command}>
                <th scope="row">{name}</th>
                <td>{COMMAND_DOES[command]}</td>
                <td>{strike ? struckWords(strike, map) : "not set"}</td>
                <td>
                  {strike && (
                    <Button
                      weight="quiet"
                      aria-label={`Take away ${name}`}
                      onPress={() => kit.commands.clear(command)}
                    >
                      Take away
                    </Button>
                  )}
                  <Button
                    weight="quiet"
                    aria-label={`${asked === command ? "Leave" : "Learn"} ${name}`}
                    onPress={() => ask(asked === command ? null : command)}
                  >
                    {asked === command ? "Leave" : "Learn"}
                  </Button>
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      {trouble !== undefined && (
        <p role="alert" className={styles.trouble}>
          {trouble}
        </p>
      )}
      <div className={styles.choices}>
        <Button weight="go" onPress={onEnd}>
          Done
        </Button>
      </div>
    </section>
  );
}

/** Hands over what the kit struck, each time it is silent again. Commands are strikes meanwhile. */
function whenStruck(kit: HeardKit, hand: (strikes: readonly Hit[]) => void): () => void {
  const hearAgain = kit.withoutCommands();
  let from = kit.log.get();
  let timer: ReturnType<typeof setTimeout> | undefined;
  const stop = kit.log.subscribe(() => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      const strikes = kit.log.entries
        .slice(from)
        .flatMap(({ event, source, live }) =>
          event.kind === "hit" && source === "kit" && live ? [event.hit] : [],
        );
      from = kit.log.get();
      if (strikes.length > 0) hand(strikes);
    }, ALONE_SECONDS * 1000);
  });
  return () => {
    clearTimeout(timer);
    stop();
    hearAgain();
  };
}
