export { backupPieces } from "./backups.ts";
export { type ShellDoor, shellDoorOf } from "./door.ts";
export { type OnTheWay, piecesOf, type Written, writeThroughShell } from "./write.ts";
