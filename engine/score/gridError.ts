/** Thrown when a grid cannot be read. Line and column count from 1. */
export class GridError extends Error {
  override readonly name = "GridError";
  readonly line: number;
  readonly column: number;

  constructor(line: number, column: number, problem: string) {
    super(`Line ${line}, column ${column}: ${problem}`);
    this.line = line;
    this.column = column;
  }
}

/** Something read, with where it stood in the text. */
export interface Placed<T> {
  readonly value: T;
  readonly line: number;
  readonly column: number;
}
