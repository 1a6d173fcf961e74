import { useLetterKey } from "../../app/useLetterKey.ts";
import { USES_KEYS } from "./useRoundKeys.ts";

/** A key of the report, as long as no control in focus uses keys itself. */
export function useReportKey(code: string, act: () => void): void {
  useLetterKey(code, act, USES_KEYS);
}
