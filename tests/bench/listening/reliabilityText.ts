import { reliability, type Told } from "../../measures/calibrationError.ts";

/** The reliability table, a bin a line. */
export function reliabilityText(name: string, told: readonly Told[]): string {
  const rows = reliability(told).map(
    ({ from, cases, said, cameTrue }) =>
      `  from ${from.toFixed(1)}: said ${said.toFixed(2)}, came true ${cameTrue.toFixed(2)} (${cases})`,
  );
  return `Reliability, ${name}:\n${rows.join("\n")}`;
}
