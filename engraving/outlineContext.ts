import { Element, type FontInfo, RenderContext, type TextMeasure } from "vexflow/core";
import type { Drawing } from "./drawing.ts";
import { extentOf, type Step } from "./glyphs.ts";

/** Pixels to the point: VexFlow gives sizes of letters in points. */
const PIXELS_PER_POINT = 4 / 3;

/**
 * What VexFlow draws on: everything becomes an outline in a {@link Drawing}, without a page or a canvas. Colours are not
 * taken over (the page decides them); staff lines are told by who draws them, see {@link lining}.
 */
export class OutlineContext extends RenderContext {
  readonly #drawing: Drawing;
  #steps: Step[] = [];
  #lineWidth = 1;
  #size = 40;
  #saved: { readonly lineWidth: number; readonly size: number }[] = [];
  /** Whether what is drawn now is staff lines and bar lines. */
  lining = false;

  constructor(drawing: Drawing) {
    super();
    this.#drawing = drawing;
  }

  get #tone(): "line" | "ink" {
    return this.lining ? "line" : "ink";
  }

  override clear(): void {}
  override setFillStyle(): this {
    return this;
  }
  override setBackgroundFillStyle(): this {
    return this;
  }
  override setStrokeStyle(): this {
    return this;
  }
  override setShadowColor(): this {
    return this;
  }
  override setShadowBlur(): this {
    return this;
  }
  override setLineWidth(width: number): this {
    this.#lineWidth = width;
    return this;
  }
  override setLineCap(): this {
    return this;
  }
  override setLineDash(): this {
    return this;
  }
  override scale(): this {
    return this;
  }
  override resize(): this {
    return this;
  }
  override clearRect(): this {
    return this;
  }
  override pointerRect(): this {
    return this;
  }
  override rect(x: number, y: number, width: number, height: number): this {
    return this.fillRect(x, y, width, height);
  }
  override fillRect(x: number, y: number, width: number, height: number): this {
    this.#drawing.rectangle(x, y, width, height, this.#tone);
    return this;
  }
  override beginPath(): this {
    this.#steps = [];
    return this;
  }
  override moveTo(x: number, y: number): this {
    this.#steps.push({ op: "M", at: [x, y] });
    return this;
  }
  override lineTo(x: number, y: number): this {
    this.#steps.push({ op: "L", at: [x, y] });
    return this;
  }
  override bezierCurveTo(x1: number, y1: number, x2: number, y2: number, x: number, y: number): this {
    this.#steps.push({ op: "C", at: [x1, y1, x2, y2, x, y] });
    return this;
  }
  override quadraticCurveTo(x1: number, y1: number, x: number, y: number): this {
    this.#steps.push({ op: "Q", at: [x1, y1, x, y] });
    return this;
  }
  /** Whole circles only: VexFlow draws the dots of repeat signs with them. */
  override arc(x: number, y: number, radius: number): this {
    const k = 0.5523 * radius;
    this.#steps.push(
      { op: "M", at: [x + radius, y] },
      { op: "C", at: [x + radius, y + k, x + k, y + radius, x, y + radius] },
      { op: "C", at: [x - k, y + radius, x - radius, y + k, x - radius, y] },
      { op: "C", at: [x - radius, y - k, x - k, y - radius, x, y - radius] },
      { op: "C", at: [x + k, y - radius, x + radius, y - k, x + radius, y] },
    );
    return this;
  }
  override closePath(): this {
    this.#steps.push({ op: "Z", at: [] });
    return this;
  }
  override fill(): this {
    if (this.#steps.length > 0) this.#drawing.fill(this.#steps, this.#tone);
    return this;
  }
  override stroke(): this {
    if (this.#steps.length > 0) this.#drawing.stroke(this.#steps, this.#lineWidth, this.#tone);
    return this;
  }
  override fillText(text: string, x: number, y: number): this {
    this.#drawing.letter(text, x, y, this.#size);
    return this;
  }
  override save(): this {
    this.#saved.push({ lineWidth: this.#lineWidth, size: this.#size });
    return this;
  }
  override restore(): this {
    const saved = this.#saved.pop();
    if (saved) {
      this.#lineWidth = saved.lineWidth;
      this.#size = saved.size;
    }
    return this;
  }
  override openGroup(): void {}
  override closeGroup(): void {}
  override openRotation(): void {}
  override closeRotation(): void {}
  override add(): void {}
  override measureText(text: string): TextMeasure {
    const { width, top, bottom } = extentOf(text);
    const size = this.#size;
    return { x: 0, y: -top * size, width: width * size, height: (top - bottom) * size };
  }
  override set fillStyle(_: string) {}
  override get fillStyle(): string {
    return "currentColor";
  }
  override set strokeStyle(_: string) {}
  override get strokeStyle(): string {
    return "currentColor";
  }
  override setFont(font?: string | FontInfo, size?: string | number): this {
    const asked = typeof font === "object" ? font.size : (size ?? font);
    this.#size = emOf(asked) ?? this.#size;
    return this;
  }
  override getFont(): string {
    return `${this.#size}px`;
  }
}

/** The em in pixels of a size in points, "30pt", "40px" or a whole CSS font. */
function emOf(size: string | number | undefined): number | undefined {
  if (typeof size === "number") return size * PIXELS_PER_POINT;
  const [, value, unit] = /([\d.]+)(pt|px)/.exec(size ?? "") ?? [];
  if (value === undefined) return undefined;
  return Number(value) * (unit === "pt" ? PIXELS_PER_POINT : 1);
}

/** Lets VexFlow measure with our outlines; it would otherwise ask the page for a canvas. */
export function measureWithOutlines(): void {
  const measuring = {
    font: "",
    measureText(text: string) {
      const size = emOf(this.font) ?? 40;
      const { width, top, bottom } = extentOf(text);
      return {
        width: width * size,
        actualBoundingBoxAscent: top * size,
        actualBoundingBoxDescent: -bottom * size,
        actualBoundingBoxLeft: 0,
        actualBoundingBoxRight: width * size,
        fontBoundingBoxAscent: size,
        fontBoundingBoxDescent: size / 4,
      };
    },
  };
  const canvas: Pick<OffscreenCanvas, "getContext"> = { getContext: () => measuring as never };
  // VexFlow asks a canvas for nothing but its two-dimensional context's `font` and `measureText`.
  Element.setTextMeasurementCanvas(canvas as OffscreenCanvas);
}
