/**
 * The families of styles, in the order they are listed. Our choice: the headings under which a teacher looks for a
 * style; a style that belongs to two is under the one where it is looked for first.
 */
export const FAMILIES = [
  "Rock",
  "Soul and funk",
  "Club and hip-hop",
  "Swing and shuffle",
  "Odd metres",
  "March and country",
  "Brazil and Argentina",
  "Cuba and the Caribbean",
  "Jamaica",
] as const;

export type Family = (typeof FAMILIES)[number];
