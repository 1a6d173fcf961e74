import { useOutKey } from "../useOutKey.ts";

const CONTROLS = "main [data-keeps-picture] button";

/** The I key goes from picture to picture: to the control under the next one, or the first. */
export function usePictureKey(): void {
  useOutKey("KeyI", () => {
    const controls = [...document.querySelectorAll<HTMLButtonElement>(CONTROLS)];
    const here = controls.findIndex((control) => control.matches(":focus"));
    controls[(here + 1) % Math.max(1, controls.length)]?.focus();
  });
}
