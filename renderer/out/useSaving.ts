import { useState } from "react";
import { messageOf, type OutFile, type Saved, saveFile } from "./saveFile.ts";

/** How far a file has come; `null` before the first, and after a dialog was closed. */
export type Saving = { readonly kind: "making" } | Exclude<Saved, { readonly kind: "put-down" }> | null;

/** Makes a file and saves it, and tells how far it has come. What goes wrong on the way is told too. */
export function useSaving(): {
  readonly saving: Saving;
  readonly save: (make: () => OutFile | Promise<OutFile>) => Promise<void>;
} {
  const [saving, setSaving] = useState<Saving>(null);
  const save = async (make: () => OutFile | Promise<OutFile>): Promise<void> => {
    setSaving({ kind: "making" });
    try {
      const saved = await saveFile(await make());
      setSaving(saved.kind === "put-down" ? null : saved);
    } catch (error) {
      setSaving({ kind: "failed", reason: `It could not be made: ${messageOf(error)}` });
    }
  };
  return { saving, save };
}
