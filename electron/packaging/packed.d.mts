import type { Configuration } from "electron-builder";

/** What electron-builder is told. */
export declare const packed: Configuration;
