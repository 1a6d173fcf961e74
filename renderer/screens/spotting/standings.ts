import type { PlayerId } from "../../../engine/rounds/index.ts";
import type { SpottingPlace, Standing } from "./spottingPlace.ts";

/** What the students of a round have met, each read once. */
export class Standings {
  readonly #read: SpottingPlace["standing"];
  readonly #trouble: (sentence: string | null) => void;
  readonly #known = new Map<PlayerId | null, Standing>();

  /** @param trouble takes why something could not be read; `null` once it could. */
  constructor(read: SpottingPlace["standing"], trouble: (sentence: string | null) => void) {
    this.#read = read;
    this.#trouble = trouble;
  }

  /** Another round begins: what was met meanwhile counts. */
  forget(): void {
    this.#known.clear();
  }

  /** Of these, in their order. Where it cannot be read nothing was met. */
  of(students: readonly (PlayerId | null)[]): Promise<readonly Standing[]> {
    return Promise.all(students.map((each) => this.#of(each)));
  }

  async #of(student: PlayerId | null): Promise<Standing> {
    const known = this.#known.get(student);
    if (known) return known;
    try {
      const read = await this.#read(student);
      this.#trouble(null);
      this.#known.set(student, read);
      return read;
    } catch (error) {
      const why = error instanceof Error ? error.message : String(error);
      this.#trouble(`What this student has met could not be read: what is played may be new. ${why}`);
      return () => null;
    }
  }
}
