/**
 * Jokers: pictures that have no business among signs of music. All are of our own drawing, in ink lines on a square of 120
 * by 120, and have nothing to do with drums.
 */
export interface Picture {
  readonly id: string;
  /** Said to who cannot see it, and written under it. */
  readonly name: string;
  /** Lines, as SVG paths. */
  readonly lines: readonly string[];
  /** Parts that are filled with ink. */
  readonly filled?: readonly string[];
}

export const PICTURES: readonly Picture[] = [
  {
    id: "weathercock",
    name: "a weathercock",
    lines: [
      "M60 112V62",
      "M30 78H90",
      "M30 78l8-6M30 78l8 6M90 78l-8-6M90 78l-8 6",
      "M40 112H80",
      "M36 56C40 62 50 64 60 62C74 60 82 50 82 40L92 38L83 33C83 26 78 22 73 23C66 24 66 34 60 40C54 46 46 44 40 36",
      "M40 36C34 26 24 24 18 28C26 32 24 40 30 46C24 44 20 46 18 50C26 50 30 54 36 56",
      "M70 23C70 18 74 15 76 19C78 14 82 17 80 24",
      "M56 62V70M64 62V70",
    ],
    filled: ["M76 31a2 2 0 1 0 .1 0Z"],
  },
  {
    id: "teapot",
    name: "a teapot",
    lines: [
      "M34 52C26 68 30 94 46 98H76C92 94 96 68 88 52Z",
      "M40 52C42 42 50 38 61 38C72 38 80 42 82 52",
      "M88 62C100 60 102 46 112 44C110 60 106 80 90 84",
      "M32 60C16 54 10 66 16 78C20 86 28 88 34 86",
      "M44 98V104H78V98",
      "M40 66C44 74 52 76 61 76C70 76 78 74 82 66",
      "M50 26C46 20 54 18 50 10M66 26C62 20 70 18 66 10",
    ],
    filled: ["M61 30a4 4 0 1 0 .1 0Z"],
  },
  {
    id: "umbrella",
    name: "an umbrella",
    lines: [
      "M14 62C16 34 36 20 60 20C84 20 104 34 106 62",
      "M14 62C20 54 30 54 37 62C43 54 53 54 60 62C67 54 77 54 83 62C90 54 100 54 106 62",
      "M60 20V12",
      "M60 58V98C60 110 76 110 76 98",
      "M37 62C38 44 46 28 60 20C74 28 82 44 83 62",
      "M22 78L18 88M42 80L38 90M84 80L80 90M102 78L98 88M30 98L26 108M94 98L90 108",
    ],
  },
  {
    id: "snail",
    name: "a snail",
    lines: [
      "M14 94C30 98 74 98 92 94C102 91 104 74 100 64C98 58 90 58 88 64C86 72 86 78 78 82",
      "M78 82C90 64 82 34 56 32C32 30 20 52 28 72C34 86 56 92 68 80C78 68 72 50 58 48C46 46 38 56 42 66C46 74 56 76 60 68C62 62 58 58 54 60",
      "M14 94C18 86 24 82 30 78",
      "M92 60L88 44M99 62L104 46",
      "M8 102H112",
    ],
    filled: ["M88 40a3 3 0 1 0 .1 0Z", "M105 42a3 3 0 1 0 .1 0Z"],
  },
  {
    id: "lighthouse",
    name: "a lighthouse",
    lines: [
      "M44 104L50 44H70L76 104",
      "M46 44H74M48 44V38H72V44",
      "M52 38V24H68V38",
      "M50 24L60 12L70 24Z",
      "M48 64L72 60M46 82L74 76",
      "M20 104C28 98 36 104 44 104H76C84 104 92 98 102 104",
      "M8 112C20 106 28 116 40 112C52 106 60 116 72 112C84 106 92 116 110 110",
      "M46 30L22 22M46 33L18 38M74 30L98 22M74 33L102 38",
      "M56 104V94C56 89 64 89 64 94V104",
    ],
    filled: ["M60 27a4 4 0 1 0 .1 0Z"],
  },
  {
    id: "kite",
    name: "a kite",
    lines: [
      "M68 10L102 42L58 78L38 32Z",
      "M68 10L58 78M38 32L102 42",
      "M58 78C50 86 62 92 52 98C42 104 52 110 38 112",
      "M46 90L58 84M50 82L56 92M40 106L52 100M44 98L50 108",
      "M14 30C20 24 28 28 28 34M10 34C16 30 22 32 24 38",
    ],
  },
  {
    id: "watering-can",
    name: "a watering can",
    lines: [
      "M36 52H78V102H36Z",
      "M36 60H78",
      "M78 90L98 52",
      "M78 76L92 48",
      "M86 42L108 56L104 62L82 48Z",
      "M36 62C16 58 14 92 36 92",
      "M44 52C44 30 72 30 72 52",
      "M98 68L100 74M104 72L106 78M110 68L112 74M100 82L102 88M108 84L110 90",
      "M46 82C52 72 62 72 68 82C62 90 52 90 46 82Z",
    ],
  },
  {
    id: "boot",
    name: "a rubber boot",
    lines: [
      "M38 14H70V64C70 72 78 74 90 78C104 82 108 90 108 100H38C36 74 38 44 38 14Z",
      "M38 24H70",
      "M36 100H110V108H36Z",
      "M40 88H52M84 76C80 82 80 90 82 100",
      "M46 108V100M60 108V100M74 108V100M88 108V100M100 108V100",
      "M54 14V8C54 4 60 4 60 8V14",
    ],
  },
  {
    id: "balloon",
    name: "a hot-air balloon",
    lines: [
      "M60 10C34 10 22 28 24 46C26 62 42 74 50 86H70C78 74 94 62 96 46C98 28 86 10 60 10Z",
      "M60 10C46 20 44 62 54 86M60 10C74 20 76 62 66 86",
      "M25 52C46 60 74 60 95 52",
      "M50 86L53 98M70 86L67 98",
      "M50 98H70V110H50Z",
      "M50 103H70",
      "M8 72C8 66 16 66 17 70C22 67 26 71 24 75H8C5 75 5 72 8 72Z",
      "M98 88C98 82 106 82 107 86C112 84 115 88 113 91H98C95 91 95 88 98 88Z",
    ],
  },
  {
    id: "cactus",
    name: "a cactus in a pot",
    lines: [
      "M50 76V28C50 14 70 14 70 28V76",
      "M50 60H40C32 60 30 54 30 48V42C30 36 38 36 38 42V48C38 50 40 50 42 50H50",
      "M70 52H78C80 52 82 52 82 48V36C82 30 90 30 90 36V50C90 58 86 62 78 62H70",
      "M38 76H82L76 108H44Z",
      "M40 86H80",
      "M60 28V34M56 44V50M64 44V50M60 58V64M34 46V50M86 40V46",
      "M60 17C52 12 56 6 60 10C64 6 68 12 60 17Z",
    ],
  },
  {
    id: "paper-boat",
    name: "a paper boat",
    lines: [
      "M12 66L38 96H82L108 66L60 74Z",
      "M60 74L60 22L34 70.5M60 22L86 70.5",
      "M60 74L38 96M60 74L82 96",
      "M6 104C16 98 24 110 36 104C48 98 56 110 68 104C80 98 88 110 114 102",
      "M60 22L70 26L60 30",
    ],
  },
  {
    id: "deck-chair",
    name: "a deck chair",
    lines: [
      "M30 16L92 106",
      "M98 40L34 106",
      "M24 20H38M94 34L104 44",
      "M30 16C36 50 52 74 80 74C90 72 96 56 98 40",
      "M38 20C44 48 56 66 78 66C86 64 92 54 94 42",
      "M20 106H44M82 106H102",
      "M44 42L52 40M52 58L60 54M66 70L70 63M84 72L82 64",
      "M64 12a8 8 0 1 0 .1 0M64 8V4M52 20H48M76 20H80M55 11L52 8M73 11L76 8",
    ],
  },
];

const BY_ID = new Map(PICTURES.map((picture) => [picture.id, picture]));

/** The picture with this id, or `undefined`. */
export function pictureById(id: string): Picture | undefined {
  return BY_ID.get(id);
}
