import { type Interval, wilson } from "../../engine/units/index.ts";

/** So many of so many, with the 95 % interval of the share. */
export interface Share extends Interval {
  readonly right: number;
  readonly asked: number;
}

/** The share with its score interval. `asked` is at least one. */
export function shareOf(right: number, asked: number): Share {
  return { right, asked, ...wilson(right, asked) };
}
