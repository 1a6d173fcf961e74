/** A picture as dots, for programs that take no SVG: drawn by the browser itself, twice as fine as on the page. */
import type { Picture } from "./figurePicture.ts";

/** Dots to a CSS pixel: sharp on most screens, and printed as wide as on the page about 190 dots an inch. */
export const PNG_SCALE = 2;

/** @throws Error when the browser cannot draw it, or has no room for so many dots. */
export async function toPng({ svg, width, height }: Picture): Promise<Blob> {
  const image = new Image();
  // A data: address is what the content security policy lets an image come from.
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`;
  await image.decode();
  const canvas = document.createElement("canvas");
  canvas.width = width * PNG_SCALE;
  canvas.height = height * PNG_SCALE;
  const brush = canvas.getContext("2d");
  if (!brush) throw new Error("The browser gave no canvas to draw on.");
  // A picture without a ground of its own would be black on black in many a program.
  brush.fillStyle = "#ffffff";
  brush.fillRect(0, 0, canvas.width, canvas.height);
  brush.drawImage(image, 0, 0, canvas.width, canvas.height);
  const dots = await new Promise<Blob | null>((settle) => canvas.toBlob(settle, "image/png"));
  if (!dots) throw new Error("The browser has no room for a picture of this size. Keep it as SVG.");
  return dots;
}
