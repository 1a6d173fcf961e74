import { Store } from "../session/store.ts";

/** A part of the program that is loaded after the first screen: `null` until it is there. */
export class ToCome<Part> extends Store<Part | null, Part> {
  readonly #make: () => Promise<Part>;
  #loaded: Promise<Part> | undefined;

  constructor(make: () => Promise<Part>) {
    super(null, (_, part) => part);
    this.#make = make;
  }

  /** Loads it; again, it gives the same promise. Fails where the files of this build cannot be had. */
  readonly load = (): Promise<Part> => {
    this.#loaded ??= this.#make().then((part) => {
      this.dispatch(part);
      return part;
    });
    return this.#loaded;
  };
}
