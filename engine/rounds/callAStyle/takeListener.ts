import { STYLES } from "../../catalogue/index.ts";
import type { Hit } from "../../kit/index.ts";
import {
  type Click,
  catalogueStock,
  type Hearing,
  hear,
  Listener,
  type Stock,
  withOwnTakes,
  withoutParts,
} from "../../listening/index.ts";
import { heardAsCalled } from "./asCalled.ts";
import type { OwnTakes } from "./earlierTakes.ts";

/** All styles of the catalogue, as written, ready to be listened for. */
export const STOCK = catalogueStock(STYLES);

/**
 * All that is listened for, known also by how this player has played it before.
 *
 * @param stock the catalogue, with the grooves of the Shelf where there are some.
 */
export function stockOfPlayer(own: readonly OwnTakes[], stock: Stock = STOCK): Stock {
  const played = own.flatMap(({ styleId, takes }) => {
    const known = stock.grooves.find(({ id }) => id === styleId);
    return known ? [{ id: known.id, name: known.name, takes }] : [];
  });
  return withOwnTakes(stock, played);
}

/** The called style as the only one that is known, and taken for certain; `undefined` for a free choice. */
export function calledStock(stock: Stock, styleId: string | null): Stock | undefined {
  const called = stock.grooves.filter(({ id }) => id === styleId);
  return called.length > 0 ? { ...withoutParts(stock), grooves: called, isCertain: true } : undefined;
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
 * @param stock the catalogue, as {@link stockOfPlayer} gives it.
 */
export function hearTake(
  hits: readonly Hit[],
  styleId: string | null,
  click: Click | undefined,
  stock: Stock,
): Hearing {
  const byClick = hearBy(hits, styleId, click, stock);
  if (click === undefined || (byClick.kind === "heard" && byClick.known)) return byClick;
  const byItself = hearBy(hits, styleId, undefined, stock);
  return byItself.kind === "heard" && byItself.known ? byItself : byClick;
}

function hearBy(
  hits: readonly Hit[],
  styleId: string | null,
  click: Click | undefined,
  stock: Stock,
): Hearing {
  const alone = calledStock(stock, styleId);
  const before = click === undefined ? {} : { click };
  return withCall(hear(hits, stock, before), alone && hear(hits, alone, before), styleId);
}

/** Hears a take while it is played. */
export class TakeListener {
  readonly #styleId: string | null;
  readonly #all: Listener;
  readonly #called: Listener | undefined;

  /** @param stock the catalogue, as {@link stockOfPlayer} gives it. */
  constructor(styleId: string | null, stock: Stock = STOCK) {
    const called = calledStock(stock, styleId);
    this.#styleId = styleId;
    this.#all = new Listener(stock);
    this.#called = called && new Listener(called);
  }

  add(hit: Hit): void {
    this.#all.add(hit);
    this.#called?.add(hit);
  }

  hearing(): Hearing {
    return withCall(this.#all.hearing(), this.#called?.hearing(), this.#styleId);
  }
}
