import { contextBridge } from "electron";
import { doorName, doorOf } from "./door.ts";

contextBridge.exposeInMainWorld(doorName, doorOf(process));
