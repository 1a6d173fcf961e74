/** Where a command's results go; a test gives its own. */
export interface Outlet {
  /** One line on standard output. Waits until the reader has taken it, so that memory stays flat. */
  readonly line: (text: string) => Promise<void>;
  /** One line on standard error. */
  readonly complain: (text: string) => void;
}

export const standardOutlet: Outlet = {
  line: (text) =>
    new Promise((resolve) => {
      if (process.stdout.write(`${text}\n`)) resolve();
      else process.stdout.once("drain", resolve);
    }),
  complain: (text) => {
    process.stderr.write(`${text}\n`);
  },
};
