import { STYLES, styleById } from "../../catalogue/index.ts";
import type { Hit } from "../../kit/index.ts";
import {
  type Click,
  catalogueStock,
  type Hearing,
  hear,
  Listener,
  type Stock,
} from "../../listening/index.ts";
import { heardAsCalled } from "./asCalled.ts";

/** All styles of the catalogue, ready to be listened for. */
const STOCK = catalogueStock(STYLES);

/** The called style as the only one that is known; `undefined` for a free choice. */
function calledStock(styleId: string | null): Stock | undefined {
  const style = styleId === null ? undefined : styleById(styleId);
  return style && catalogueStock([style]);
}

function withCall(hearing: Hearing, alone: Hearing | undefined, styleId: string | null): Hearing {
  if (styleId === null || hearing.kind !== "heard" || alone?.kind !== "heard") return hearing;
  return heardAsCalled(hearing, alone, styleId);
}

/**
 * Hears a whole take. A player who leaves the click is still playing the groove: what is none that is known by the
 * click's pulse is heard once more by its own.
 *
 * @param styleId the style that was called; `null` for a free choice.
 * @param click the click, when there was one.
 */
export function hearTake(hits: readonly Hit[], styleId: string | null, click: Click | undefined): Hearing {
  const byClick = hearBy(hits, styleId, click);
  if (click === undefined || (byClick.kind === "heard" && byClick.known)) return byClick;
  const byItself = hearBy(hits, styleId, undefined);
  return byItself.kind === "heard" && byItself.known ? byItself : byClick;
}

function hearBy(hits: readonly Hit[], styleId: string | null, click: Click | undefined): Hearing {
  const alone = calledStock(styleId);
  const before = click === undefined ? {} : { click };
  return withCall(hear(hits, STOCK, before), alone && hear(hits, alone, before), styleId);
}

/** Hears a take while it is played. */
export class TakeListener {
  readonly #styleId: string | null;
  readonly #all = new Listener(STOCK);
  readonly #called: Listener | undefined;

  constructor(styleId: string | null) {
    const stock = calledStock(styleId);
    this.#styleId = styleId;
    this.#called = stock && new Listener(stock);
  }

  add(hit: Hit): void {
    this.#all.add(hit);
    this.#called?.add(hit);
  }

  hearing(): Hearing {
    return withCall(this.#all.hearing(), this.#called?.hearing(), this.#styleId);
  }
}
