import styles from "./JokerPicture.module.css";
import { pictureById } from "./pictures.ts";

/** A joker, drawn in ink. */
export function JokerPicture({ id }: { readonly id: string }) {
  const picture = pictureById(id);
  if (!picture) return null;
  return (
    <svg className={styles.picture} viewBox="0 0 120 120" role="img" aria-label={`A joker: ${picture.name}`}>
      {picture.lines.map((line) => (
        <path key={line} d={line} className={styles.line} />
      ))}
      {picture.filled?.map((part) => (
        <path key={part} d={part} className={styles.filled} />
      ))}
    </svg>
  );
}
