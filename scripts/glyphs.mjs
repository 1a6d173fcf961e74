/**
 * Takes the outlines that the engraving draws out of two free fonts, into engraving/glyphs/music.json and
 * engraving/glyphs/lettering.json. Run again only when a glyph is added to the lists below:
 *
 *     node scripts/glyphs.mjs
 *
 * Both fonts are under the SIL Open Font License 1.1, whose text is copied beside the outlines.
 */
import { copyFile, mkdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import opentype from "opentype.js";

const OUT = "engraving/glyphs";
const MUSIC = "node_modules/@vexflow-fonts/bravura";
const TEXT = "node_modules/@fontsource/atkinson-hyperlegible";

/** What is written on a drum-set staff: code points of SMuFL, the Standard Music Font Layout 1.4. */
const MUSIC_GLYPHS = [
  ...range(0xe080, 0xe089), // time signature digits
  0xe069, // unpitched percussion clef
  ...[0xe0a2, 0xe0a3, 0xe0a4], // noteheads: whole, half, black
  ...[0xe0a7, 0xe0a8, 0xe0a9], // x: whole, half, black
  ...[0xe0b1, 0xe0b2, 0xe0b3], // circled x
  ...[0xe0b8, 0xe0b9], // square: white, black
  ...[0xe0bb, 0xe0bc, 0xe0be], // triangle up: whole, half, black
  ...[0xe0c4, 0xe0c5, 0xe0c7], // triangle down: whole, half, black
  ...[0xe0d8, 0xe0d9, 0xe0db], // diamond: whole, half, black
  ...[0xe100, 0xe102, 0xe103], // slash: black, whole, half
  ...[0xe0f5, 0xe0f6], // parentheses of a notehead
  0xe1e7, // augmentation dot
  ...range(0xe240, 0xe24b), // flags of eighths to 256ths, up and down
  ...[0xe4a0, 0xe4a1], // accent above, below
  ...range(0xe4e3, 0xe4eb), // rests, whole to 256th
  ...[0xe4f4, 0xe4f5], // whole and half rest with a ledger line
  0xe500, // repeat of one bar
  ...range(0xe880, 0xe88a), // tuplet digits and colon
  ...range(0xe045, 0xe048), // D.S., D.C., segno, coda
  ...[0xe08a, 0xe08b], // common and cut time
  ...[0xe1d2, 0xe1d3, 0xe1d5, 0xe1d7, 0xe1d9, 0xe1db, 0xe1dd], // whole notes of cards, stem up, whole to sixty-fourth
  ...[0xe222, 0xe22a], // tremolo of three strokes, buzz roll
  ...[0xe4a2, 0xe4a4, 0xe4ac, 0xe4c0], // staccato, tenuto, strong accent, fermata, above
  0xe501, // repeat of two bars
  ...[0xe520, 0xe522, 0xe52b, 0xe52c, 0xe52d, 0xe52f, 0xe534, 0xe539], // p, f, pp, mp, mf, ff, fp, sfz
  ...[0xeca2, 0xeca3, 0xeca5, 0xeca7, 0xeca9, 0xecb7], // metronome mark: whole, half, quarter, eighth, sixteenth, dot
];

/** What is lettered beside a staff. */
const LETTERS = [...range(0x20, 0x7e), ...[..."×·–—éãñíóúç"].map((letter) => letter.codePointAt(0))];

function range(first, last) {
  return Array.from({ length: last - first + 1 }, (_, index) => first + index);
}

const parsed = async (path) => opentype.parse(new Uint8Array(await readFile(path)).buffer);

/** `{ unitsPerEm, glyphs: { hex code: [advance, left, bottom, right, top, outline] } }`, in font units, y upwards. */
function outlines(font, codes) {
  const glyphs = {};
  for (const code of codes) {
    const glyph = font.charToGlyph(String.fromCodePoint(code));
    if (glyph.index === 0) throw new Error(`The font has no glyph ${code.toString(16)}.`);
    const { x1, y1, x2, y2 } = glyph.getBoundingBox();
    const round = (value) => Math.round(value);
    const outline = glyph.path.commands
      .map((c) => {
        switch (c.type) {
          case "M":
          case "L":
            return `${c.type}${round(c.x)} ${round(c.y)}`;
          case "C":
            return `C${[c.x1, c.y1, c.x2, c.y2, c.x, c.y].map(round).join(" ")}`;
          case "Q":
            return `Q${[c.x1, c.y1, c.x, c.y].map(round).join(" ")}`;
          default:
            return "Z";
        }
      })
      .join("");
    glyphs[code.toString(16)] = [glyph.advanceWidth, ...[x1, y1, x2, y2].map(round), outline];
  }
  return { unitsPerEm: font.unitsPerEm, glyphs };
}

await mkdir(OUT, { recursive: true });
const written = [
  ["music", outlines(await parsed(join(MUSIC, "bravura.otf")), MUSIC_GLYPHS)],
  [
    "lettering",
    outlines(await parsed(join(TEXT, "files/atkinson-hyperlegible-latin-400-normal.woff")), LETTERS),
  ],
];
for (const [name, font] of written) {
  await writeFile(join(OUT, `${name}.json`), `${JSON.stringify(font)}\n`);
  process.stdout.write(`${name}: ${Object.keys(font.glyphs).length} glyphs\n`);
}
await copyFile(join(MUSIC, "LICENSE.txt"), join(OUT, "music.licence.txt"));
await copyFile(join(TEXT, "LICENSE"), join(OUT, "lettering.licence.txt"));
