/** The package brings no types. */
declare module "munkres-js" {
  /** Rows and columns of the cheapest assignment of a square matrix of costs. */
  export default function munkres(costs: readonly (readonly number[])[]): [row: number, column: number][];
}
