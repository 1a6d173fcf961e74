/**
 * What went wrong with a file, as a sentence: `what` is how the sentence begins ("Shuffle.mid was not saved"). The
 * codes are those of POSIX, which Node gives on every system.
 */
export function fileTrouble(what: string, error: unknown): string {
  switch (codeOf(error)) {
    case "ENOSPC":
    case "EDQUOT":
    case "EFBIG":
      return `${what}: there is no room left. Make room, or choose another place.`;
    case "EACCES":
    case "EPERM":
    case "EROFS":
      return `${what}: this is not allowed there. Choose another place, or allow it in the system’s settings.`;
    case "EBUSY":
    case "ETXTBSY":
      return `${what}: another program holds it open. Close it there, and try again.`;
    case "ENOENT":
    case "ENOTDIR":
      return `${what}: it is not there any more. If it is on another disk, connect that; else choose another place.`;
    case "ENAMETOOLONG":
    case "EINVAL":
      return `${what}: this disk does not take such a name. Choose a shorter or plainer one.`;
    case "EIO":
      return `${what}: the disk did not answer rightly. Try another disk, and look after this one.`;
    default:
      return `${what}: ${sentence(error)} Try again, or choose another place.`;
  }
}

/** The code of a Node error, or undefined. */
export function codeOf(error: unknown): string | undefined {
  return error instanceof Error && "code" in error && typeof error.code === "string" ? error.code : undefined;
}

function sentence(error: unknown): string {
  const text = (error instanceof Error ? error.message : String(error)).trim();
  return /[.!?]$/.test(text) ? text : `${text}.`;
}
