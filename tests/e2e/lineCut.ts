/** A line to a room that can be cut: what passes it breaks off, and nothing passes until it is mended. */
import { connect, createServer, type Socket } from "node:net";

export interface CutLine {
  readonly port: number;
  readonly cut: () => void;
  readonly mend: () => void;
  readonly close: () => Promise<void>;
}

/** @param to the port of the room on this computer. */
export async function lineTo(to: number): Promise<CutLine> {
  const sockets = new Set<Socket>();
  let isCut = false;
  const server = createServer((near) => {
    if (isCut) {
      near.destroy();
      return;
    }
    const far = connect(to, "127.0.0.1");
    for (const [one, other] of [
      [near, far],
      [far, near],
    ] as const) {
      sockets.add(one);
      one.setNoDelay(true);
      one.on("error", () => one.destroy());
      one.once("close", () => {
        sockets.delete(one);
        other.destroy();
      });
      one.pipe(other);
    }
  });
  await new Promise<void>((listening) => server.listen(0, "127.0.0.1", listening));
  const address = server.address();
  if (address === null || typeof address === "string") throw new Error("The line has a port.");
  const cut = (): void => {
    isCut = true;
    for (const socket of sockets) socket.destroy();
  };
  return {
    port: address.port,
    cut,
    mend: () => {
      isCut = false;
    },
    close: () => {
      cut();
      return new Promise((closed) => server.close(() => closed()));
    },
  };
}
