export { Button } from "./Button.tsx";
export { Choice } from "./Choice.tsx";
export { FindBox } from "./FindBox.tsx";
export { NumberBox } from "./NumberBox.tsx";
export { OneOf } from "./OneOf.tsx";
export { TextBox, type TextBoxProps } from "./TextBox.tsx";
export { Toggle } from "./Toggle.tsx";
export { useSlashKey } from "./useSlashKey.ts";
