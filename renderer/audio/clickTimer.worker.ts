/** Ticks for {@link file://./clickTimer.ts}: the message is the time from one tick to the next, in milliseconds. */
self.onmessage = ({ data }: MessageEvent<number>) => {
  setInterval(() => self.postMessage(null), data);
};
