/** A name as it is compared: without case, accents, spaces, hyphens. */
function bare(text: string): string {
  return text
    .normalize("NFD")
    .toLowerCase()
    .replaceAll(/[^a-z0-9]/g, "");
}

/**
 * Whether a name is meant by what was typed: every word of it is somewhere in the name, each in a place of its own,
 * whatever the case, the accents and the hyphens ("baiao" finds Baião, "cha cha" Cha-cha and not Chacarera). Nothing
 * typed finds every name.
 */
export function isFound(name: string, typed: string): boolean {
  let left = bare(name);
  for (const word of typed.split(/\s+/).map(bare)) {
    if (!left.includes(word)) return false;
    left = word === "" ? left : left.replace(word, " ");
  }
  return true;
}
