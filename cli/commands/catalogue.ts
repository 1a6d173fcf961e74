import { STYLES } from "../../engine/catalogue/index.ts";
import { metreName } from "../../engine/score/index.ts";
import type { Outlet } from "../outlet.ts";
import { readArguments } from "../usage.ts";
import { UsageError } from "../usageError.ts";

const KINDS = ["style", "fill", "rudiment"] as const;

/** `catalogue`: the studio's stock, one line an entry. Kinds appear as they are built. */
export async function catalogueCommand(args: readonly string[], outlet: Outlet): Promise<boolean> {
  const { values, positionals } = readArguments(args, {
    kind: { type: "string" },
    json: { type: "boolean", default: false },
  });
  if (positionals[0] !== undefined) throw new UsageError(`"${positionals[0]}" is not understood here.`);
  if (values.kind !== undefined && !KINDS.some((kind) => kind === values.kind)) {
    throw new UsageError(`--kind ${values.kind}: the kinds are ${KINDS.join(", ")}.`);
  }
  if (values.kind !== undefined && values.kind !== "style") {
    outlet.complain(`The catalogue holds no ${values.kind} yet.`);
    return true;
  }
  for (const style of STYLES) {
    const { metre, feel, tempoBpm } = style.variants[0] ?? {};
    await outlet.line(
      values.json
        ? JSON.stringify({
            id: style.id,
            kind: "style",
            name: style.name,
            metre: metre && metreName(metre),
            feel: feel?.kind,
            tempoBpm,
            variants: style.variants.map(({ id }) => id),
            itself: style.itself,
            source: style.source,
          })
        : `${style.id.padEnd(20)} ${style.name}. ${style.itself}`,
    );
  }
  return true;
}
