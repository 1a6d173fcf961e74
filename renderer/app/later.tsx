import { type ComponentType, use } from "react";

/** A part of the screen that is fetched when it is wanted, or before. */
export interface Later {
  (): React.JSX.Element;
  /** Fetches it; again, it gives the same promise. Fails where the files of this build cannot be had. */
  readonly fetch: () => Promise<ComponentType>;
}

/**
 * As React's `lazy`, but what is there already is drawn at once. `lazy` shows the placeholder for a moment all the same,
 * and React keeps a placeholder that was shown for 300 ms (FALLBACK_THROTTLE_MS).
 */
export function later(load: () => Promise<ComponentType>): Later {
  let part: ComponentType | undefined;
  let loading: Promise<ComponentType> | undefined;
  const fetch = (): Promise<ComponentType> => {
    loading ??= load().then((loaded) => {
      part = loaded;
      return loaded;
    });
    return loading;
  };
  function LaterPart() {
    const Part = part ?? use(fetch());
    return <Part />;
  }
  return Object.assign(LaterPart, { fetch });
}
