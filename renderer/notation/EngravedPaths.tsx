import type { Path } from "../../engraving/index.ts";
import styles from "./Engraved.module.css";

/** What was engraved, in the colours of the page; on paper in black. */
export function EngravedPaths({ paths }: { readonly paths: readonly Path[] }) {
  return paths.map(({ tone, d, strokeWidth, dash }) => (
    <path
      key={`${tone} ${strokeWidth ?? "fill"} ${d}`}
      d={d}
      className={strokeWidth === undefined ? styles[`${tone}Fill`] : styles[`${tone}Stroke`]}
      strokeWidth={strokeWidth}
      strokeDasharray={dash}
    />
  ));
}
