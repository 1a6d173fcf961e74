export { Button } from "./Button.tsx";
export { Choice } from "./Choice.tsx";
export { NumberBox } from "./NumberBox.tsx";
export { Toggle } from "./Toggle.tsx";
