/** The page's own colours and letters, for what is drawn on a canvas: they follow the theme, as everything else does. */
export interface Ink {
  readonly ink: string;
  readonly soft: string;
  readonly rule: string;
  readonly edge: string;
  readonly sheet: string;
  readonly paper: string;
  readonly teal: string;
  readonly tealSoft: string;
  readonly rust: string;
  readonly sans: string;
}

export function inkOf(element: Element): Ink {
  const style = getComputedStyle(element);
  const read = (name: string): string => style.getPropertyValue(name).trim();
  return {
    ink: read("--ink"),
    soft: read("--ink-soft"),
    rule: read("--rule"),
    edge: read("--edge"),
    sheet: read("--sheet"),
    paper: read("--paper"),
    teal: read("--teal"),
    tealSoft: read("--teal-soft"),
    rust: read("--rust"),
    sans: read("--sans"),
  };
}

/** Width and height in CSS pixels. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** A cleared canvas as sharp as the screen is; `null` where the browser gives none. */
export function cleared(canvas: HTMLCanvasElement, { width, height }: Size): CanvasRenderingContext2D | null {
  const sharpness = window.devicePixelRatio || 1;
  const [across, down] = [Math.round(width * sharpness), Math.round(height * sharpness)];
  if (canvas.width !== across || canvas.height !== down) {
    canvas.width = across;
    canvas.height = down;
  }
  const draw = canvas.getContext("2d");
  draw?.setTransform(sharpness, 0, 0, sharpness, 0, 0);
  draw?.clearRect(0, 0, width, height);
  return draw;
}
