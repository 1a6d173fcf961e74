import type { Hit, KitMap } from "../../../../engine/kit/index.ts";
import type { FileRead } from "../import/shelfImport.ts";
import type { TakeClick, WrittenDown } from "./writeDown.ts";

/** Requests to the worker that writes music down; each is answered once. */
export type WritingRequest =
  | { readonly kind: "file"; readonly bytes: ArrayBuffer; readonly maps: readonly KitMap[] }
  | {
      readonly kind: "take";
      readonly hits: readonly Hit[];
      readonly click: TakeClick | null;
      /** Felt beats by which the one lies later than it was found. */
      readonly later: number;
    };

export type WritingAnswer =
  | { readonly kind: "file"; readonly read: FileRead }
  | { readonly kind: "take"; readonly written: WrittenDown };
