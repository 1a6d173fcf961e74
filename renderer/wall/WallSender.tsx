import { useEffect } from "react";
import type { KitEvent } from "../../engine/kit/index.ts";
import { useLesson } from "../app/LessonContext.tsx";
import type { ScreenId } from "../app/route.ts";
import { framedAt } from "../screens/round/framedAt.ts";
import { struckGiveOrTakeMs } from "../session/struckSetUp.ts";
import { WALL_CHANNEL, type WallMessage, wallMessageSchema } from "./wallPage.ts";

/** Twenty pages a second are more than the eye asks for, and cost the strike path nothing. */
const SEND_EVERY_MS = 50;
const HITS: ReadonlySet<KitEvent["kind"]> = new Set(["hit"]);

/** Sends the page to the wall view, whenever something on it changes and there is a wall view. */
export function WallSender({ screen }: { readonly screen: ScreenId }) {
  const { session, round, framed } = useLesson();
  const here = framedAt(framed, screen);
  useEffect(() => {
    const channel = new BroadcastChannel(WALL_CHANNEL);
    let isWatched = false;
    let isClosed = false;
    let timer: ReturnType<typeof setTimeout> | undefined;

    const send = async (): Promise<void> => {
      // What the wall shows of a report comes with the first wall view, not with the first screen.
      const { pageForWall } = await import("./pageForWall.ts");
      timer = undefined;
      if (isClosed) return;
      const [last] = session.listened.get().log.latest(1, HITS);
      const content = pageForWall({
        screen,
        kit: session.connection.get(),
        lastHit: last?.entry.event.kind === "hit" ? last.entry.event.hit : undefined,
        round: round.get(),
        hits: round.hits(),
        framed: here,
        setUpGiveOrTakeMs: struckGiveOrTakeMs(session) ?? null,
      });
      channel.postMessage({
        kind: "page",
        timeOriginMs: performance.timeOrigin,
        ...content,
      } satisfies WallMessage);
    };
    const sendSoon = (): void => {
      if (isWatched) timer ??= setTimeout(() => void send(), SEND_EVERY_MS);
    };
    channel.onmessage = ({ data }) => {
      const message = wallMessageSchema.parse(data);
      if (message.kind === "opened") {
        isWatched = true;
        sendSoon();
      }
      if (message.kind === "closed") {
        // There may be another wall: it answers.
        isWatched = false;
        channel.postMessage({ kind: "asking" } satisfies WallMessage);
      }
      // A page is another book's: to answer it would set two books talking without end.
    };
    const stops = [
      ...session.kits.map(({ log }) => log.subscribe(sendSoon)),
      session.listened.subscribe(sendSoon),
      session.connection.subscribe(sendSoon),
      round.subscribe(sendSoon),
      ...(here ? [here.subscribe(sendSoon), here.onWallChanged(sendSoon)] : []),
      session.setUps.subscribe(sendSoon),
    ];
    // A wall that was open before this page was shown says so again when asked.
    channel.postMessage({ kind: "asking" } satisfies WallMessage);
    return () => {
      isClosed = true;
      for (const stop of stops) stop();
      clearTimeout(timer);
      channel.close();
    };
  }, [screen, session, round, here]);
  return null;
}
