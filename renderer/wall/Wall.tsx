import { useCallback, useEffect, useMemo, useState } from "react";
import { grooveById } from "../../engine/catalogue/index.ts";
import { type Groove, parseGrid } from "../../engine/score/index.ts";
import type { Seconds } from "../../engine/units/index.ts";
import { BarRing } from "../charts/BarRing.tsx";
import { LiveStaff } from "../notation/index.ts";
import { type CountIn, useCountIn } from "../screens/call-a-style/useCountIn.ts";
import { useHandPlace } from "../screens/call-a-style/useHandPlace.ts";
import { filledShare, SHAPE_BOX, VoiceShape } from "../screens/kit/VoiceShape.tsx";
import { RoundSheetOnWall } from "./roundSheets.tsx";
import styles from "./Wall.module.css";
import { WALL_CHANNEL, type WallMessage, type WallPage, wallMessageSchema } from "./wallPage.ts";

/** Between the lines of the staff, in pixels: a head is as high as the smallest letters here, or nearly. */
const MOST_SPACE = 24;
const LEAST_SPACE = 14;

interface RingOnWall {
  readonly ring: NonNullable<WallPage["ring"]>;
  readonly bookNow: () => Seconds;
}

/** The wall view: the page of the book window, large and dark, for the player on the throne. */
export function Wall() {
  const page = useWallPage();
  const bookNow = useBookNow(page);
  const countIn = useCounted(page?.countIn);
  const count = useCountIn(countIn, bookNow);
  useEffect(() => {
    document.title = "Wall view: Throneside";
  }, []);
  if (!page) {
    return (
      <main className={styles.words}>
        <h1>Throneside</h1>
        <p className={styles.sub}>Waiting for the book window. Keep it open: this wall shows its page.</p>
      </main>
    );
  }
  return (
    <main className={page.ring || page.struck ? styles.wall : styles.words}>
      {page.ring && <WallRing ring={page.ring} bookNow={bookNow} />}
      {page.struck && <WallVoice struck={page.struck} />}
      <div>
        <h1 className={count ? styles.count : undefined}>{count ?? page.title}</h1>
        <p className={styles.sub}>{count ? page.title : page.sub}</p>
        {page.says.map((say) => (
          <p key={say} className={styles.say}>
            {say}
          </p>
        ))}
        {page.ring && <WallStaff ring={page.ring} bookNow={bookNow} />}
        {page.sheet && <RoundSheetOnWall sheet={page.sheet} bookNow={bookNow} />}
      </div>
    </main>
  );
}

/** What the ring shows as written, on the staff: all on one line, as large as goes. */
function WallStaff({ ring, bookNow }: RingOnWall) {
  const { turn } = ring;
  const groove = useWritten(ring);
  const clock = useMemo(
    () => turn && { turnFrom: turn.fromSeconds, turnSeconds: turn.seconds, beatsPerTurn: turn.beats },
    [turn],
  );
  if (!groove) return null;
  return (
    <div className={styles.written}>
      <LiveStaff
        groove={groove}
        label={`${groove.name} on the staff`}
        space={MOST_SPACE}
        leastSpace={LEAST_SPACE}
        clock={clock ?? undefined}
        now={bookNow}
      />
    </div>
  );
}

function WallVoice({ struck: { voice, velocity } }: { readonly struck: NonNullable<WallPage["struck"]> }) {
  return (
    <svg className={styles.voice} viewBox={`0 0 ${SHAPE_BOX.width} ${SHAPE_BOX.height}`} aria-hidden="true">
      <VoiceShape voice={voice} className={styles.open} scale={1} />
      <VoiceShape voice={voice} className={styles.filled} scale={filledShare(velocity)} />
    </svg>
  );
}

/** The groove that is written: of the catalogue, or read from what was sent along. */
function useWritten({ grooveId, shelfGrid }: RingOnWall["ring"]): Groove | undefined {
  return useMemo(() => {
    if (shelfGrid !== undefined) return parseGrid(shelfGrid);
    return grooveId === null ? undefined : grooveById(grooveId);
  }, [grooveId, shelfGrid]);
}

function WallRing({ ring, bookNow }: RingOnWall) {
  const groove = useWritten(ring);
  const { turn } = ring;
  const fromSeconds = turn?.fromSeconds;
  const seconds = turn?.seconds;
  const beats = turn?.beats;
  const clock = useMemo(
    () =>
      fromSeconds === undefined || seconds === undefined || beats === undefined
        ? undefined
        : { turnFrom: fromSeconds, turnSeconds: seconds, beatsPerTurn: beats, turns: [] },
    [fromSeconds, seconds, beats],
  );
  const hand = useHandPlace(clock, bookNow);
  return (
    <BarRing
      groove={groove}
      played={ring.played}
      handPlace={hand}
      size={640}
      beats={ring.beats ?? undefined}
      label={ring.label}
    />
  );
}

/** The session clock of the book window. Each window counts from its own opening: they meet at the time of day. */
function useBookNow(page: WallPage | undefined): () => Seconds {
  const timeOriginMs = page?.timeOriginMs ?? performance.timeOrigin;
  return useCallback(
    () => (performance.timeOrigin + performance.now() - timeOriginMs) / 1000,
    [timeOriginMs],
  );
}

/** The same count-in as long as its figures are the same: every page that is sent brings a new copy. */
function useCounted(countIn: WallPage["countIn"] | undefined): CountIn | undefined {
  const { until, beatSeconds, beats } = countIn ?? {};
  return useMemo(
    () =>
      until === undefined || beatSeconds === undefined || beats === undefined
        ? undefined
        : { until, beatSeconds, beats },
    [until, beatSeconds, beats],
  );
}

/** The latest page that was sent. */
function useWallPage(): WallPage | undefined {
  const [page, setPage] = useState<WallPage>();
  useEffect(() => {
    const channel = new BroadcastChannel(WALL_CHANNEL);
    const tell = (message: WallMessage): void => channel.postMessage(message);
    channel.onmessage = ({ data }) => {
      const message = wallMessageSchema.parse(data);
      if (message.kind === "page") setPage(message);
      if (message.kind === "asking") tell({ kind: "opened" });
    };
    const close = (): void => tell({ kind: "closed" });
    window.addEventListener("pagehide", close);
    tell({ kind: "opened" });
    return () => {
      window.removeEventListener("pagehide", close);
      close();
      channel.close();
    };
  }, []);
  return page;
}
