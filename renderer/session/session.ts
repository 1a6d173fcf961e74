/**
 * The one path of a strike: a source hands over a MIDI message with its moment, the ear at the end of the
 * cable makes an event of it, the event is appended to the log, and the screens watch the log.
 */
import { KitEar } from "../../engine/kit/index.ts";
import { KitConnection } from "../midi/kitConnection.ts";
import type { TimedMessage } from "../midi/timedMessage.ts";
import { DemonstrationPlayer } from "../players/demonstrationPlayer.ts";
import { KitLog, type LogEntry, type Source } from "./kitLog.ts";
import { type KeepingPlace, KitMapStore } from "./kitMapChoice.ts";

export class Session {
  readonly log = new KitLog();
  readonly kitMap: KitMapStore;
  readonly connection: KitConnection;
  readonly demonstration: DemonstrationPlayer;
  #ear: KitEar;

  constructor(place: KeepingPlace) {
    this.kitMap = new KitMapStore(place);
    this.#ear = new KitEar(this.kitMap.get().map);
    this.kitMap.subscribe(() => {
      this.#ear = new KitEar(this.kitMap.get().map);
    });
    this.connection = new KitConnection((timed) => this.receive([timed], "kit"));
    this.demonstration = new DemonstrationPlayer((timed, live) => this.receive(timed, "demonstration", live));
  }

  /** Takes messages from a source, in order of time. */
  receive(messages: readonly TimedMessage[], source: Source, live = true): void {
    const entries: LogEntry[] = [];
    for (const { message, time } of messages) {
      const event = this.#ear.hear(message, time);
      if (event) entries.push({ source, event, live });
    }
    this.log.append(entries);
  }
}
