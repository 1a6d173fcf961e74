/** Power spectra by the fast Fourier transform (Cooley & Tukey 1965), radix two. */

/** A transform of one size; a Hann window of the same or a smaller size is laid over what it is given. */
export class Spectrum {
  readonly size: number;
  readonly #window: Float64Array;
  readonly #cos: Float64Array;
  readonly #sin: Float64Array;
  readonly #re: Float64Array;
  readonly #im: Float64Array;

  /**
   * @param windowSize samples taken at a time.
   * @throws RangeError when no power of two can hold them.
   */
  constructor(readonly windowSize: number) {
    if (!Number.isInteger(windowSize) || windowSize < 2)
      throw new RangeError(`A spectrum of ${windowSize} samples cannot be taken: two are the fewest.`);
    this.size = 2 ** Math.ceil(Math.log2(windowSize));
    this.#window = Float64Array.from(
      { length: windowSize },
      (_, at) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (at + 0.5)) / windowSize),
    );
    this.#cos = Float64Array.from({ length: this.size / 2 }, (_, k) =>
      Math.cos((2 * Math.PI * k) / this.size),
    );
    this.#sin = Float64Array.from(
      { length: this.size / 2 },
      (_, k) => -Math.sin((2 * Math.PI * k) / this.size),
    );
    this.#re = new Float64Array(this.size);
    this.#im = new Float64Array(this.size);
  }

  /** Power in each of `size / 2 + 1` bins of the window that begins at `from`; silence outside the samples. */
  power(samples: Float32Array, from: number): Float64Array {
    this.#re.fill(0);
    this.#im.fill(0);
    for (let at = 0; at < this.windowSize; at += 1)
      this.#re[at] = (samples[from + at] ?? 0) * (this.#window[at] ?? 0);
    this.#transform();
    return Float64Array.from(
      { length: this.size / 2 + 1 },
      (_, bin) => (this.#re[bin] ?? 0) ** 2 + (this.#im[bin] ?? 0) ** 2,
    );
  }

  #transform(): void {
    const re = this.#re;
    const im = this.#im;
    this.#reverseBits();
    for (let span = 2; span <= this.size; span *= 2) {
      const half = span / 2;
      const stride = this.size / span;
      for (let start = 0; start < this.size; start += span) {
        for (let at = 0; at < half; at += 1) {
          const cos = this.#cos[at * stride] ?? 0;
          const sin = this.#sin[at * stride] ?? 0;
          const low = start + at;
          const high = low + half;
          const highRe = re[high] ?? 0;
          const highIm = im[high] ?? 0;
          const turnedRe = highRe * cos - highIm * sin;
          const turnedIm = highRe * sin + highIm * cos;
          re[high] = (re[low] ?? 0) - turnedRe;
          im[high] = (im[low] ?? 0) - turnedIm;
          re[low] = (re[low] ?? 0) + turnedRe;
          im[low] = (im[low] ?? 0) + turnedIm;
        }
      }
    }
  }

  #reverseBits(): void {
    let reversed = 0;
    for (let at = 1; at < this.size; at += 1) {
      let bit = this.size >> 1;
      while (reversed & bit) {
        reversed ^= bit;
        bit >>= 1;
      }
      reversed |= bit;
      if (at >= reversed) continue;
      // Only real parts are filled before the transform.
      const here = this.#re[at] ?? 0;
      this.#re[at] = this.#re[reversed] ?? 0;
      this.#re[reversed] = here;
    }
  }
}
