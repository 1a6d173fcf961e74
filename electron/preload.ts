import { contextBridge, ipcRenderer } from "electron";
import { doorName, doorOf } from "./door/door.ts";

contextBridge.exposeInMainWorld(doorName, doorOf(process, ipcRenderer));
