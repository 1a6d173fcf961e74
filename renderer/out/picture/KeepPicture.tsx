/** Under a figure: keep the picture, as SVG or as PNG. It takes the figure it stands in. */
import { useRef } from "react";
import { dayName, fileName } from "../fileName.ts";
import { OutMenu } from "../OutMenu.tsx";
import styles from "../out.module.css";
import { SavingTold } from "../SavingTold.tsx";
import { FILE_KINDS, type OutFile } from "../saveFile.ts";
import { type Origin, useOrigin } from "../TakenFrom.ts";
import { useSaving } from "../useSaving.ts";

export interface KeepPictureProps {
  /** What the picture shows, for its title: "Lean and spread by beat". */
  readonly shows: string;
}

type PictureKind = "svg" | "png";

export function KeepPicture({ shows }: KeepPictureProps) {
  const origin = useOrigin();
  const place = useRef<HTMLDivElement>(null);
  const { saving, save } = useSaving();
  if (origin === null) return null;
  const keep = (kind: PictureKind) => () =>
    void save(() => pictureOf(place.current, { shows, origin, kind }));
  return (
    <>
      <div ref={place} className={styles.keep} data-not-in-picture data-keeps-picture>
        <OutMenu
          label="Keep this picture"
          weight="small"
          sections={[
            {
              heading: shows,
              items: [
                { id: "svg", name: "SVG", remark: "sharp at any size", act: keep("svg") },
                { id: "png", name: "PNG", remark: "for messages and slides", act: keep("png") },
              ],
            },
          ]}
        />
      </div>
      <div className={styles.keptTold} data-not-in-picture>
        <SavingTold saving={saving} />
      </div>
    </>
  );
}

/** The figure round a control, as a file. */
async function pictureOf(
  control: Element | null,
  { shows, origin, kind }: { readonly shows: string; readonly origin: Origin; readonly kind: PictureKind },
): Promise<OutFile> {
  const figure = control?.closest("figure");
  if (!figure) throw new Error("The control stands in no figure.");
  // The letters and the drawing of pictures come with the first picture that is kept.
  const [{ figurePicture }, { toPng }] = await Promise.all([
    import("./figurePicture.ts"),
    import("./toPng.ts"),
  ]);
  const picture = figurePicture(figure, { title: shows, source: sourceWords(origin) });
  const name = fileName({ ...origin, what: shows.toLowerCase(), ending: kind });
  return { name, kind: FILE_KINDS[kind], content: kind === "svg" ? picture.svg : await toPng(picture) };
}

/** "Shuffle, 2026-11-26, 104 a minute" */
function sourceWords({ of, day, tempoBpm }: Origin): string {
  const tempo = tempoBpm === null ? [] : [`${Math.round(tempoBpm)} a minute`];
  return [of, dayName(day), ...tempo].join(", ");
}
