import { Cautions } from "../kit/Cautions.tsx";
import styles from "./Studio.module.css";

/** All cautions in one place; each stands as well where it applies. */
export function AllCautions() {
  return (
    <section className={styles.cautions}>
      <h2>Cautions</h2>
      <Cautions />
      <section>
        <h3>Mains-powered gear</h3>
        <p>Follow the maker’s instructions for the kit, its power supply and the loudspeakers.</p>
      </section>
      <section>
        <h3>Records of children</h3>
        <p>
          Nicknames are enough; no birthday, picture or voice is kept. Ask a guardian and note it on the
          student’s page: in the European Union below 16 years, or as low as 13 where the country says so
          (GDPR, Article 8); in the United States below 13 (COPPA). Local rules decide.
        </p>
      </section>
      <section>
        <h3>What the program cannot know</h3>
        <p>
          It hears strikes, not people. When it is not sure it says so; the teacher’s word stands above it.
        </p>
      </section>
    </section>
  );
}
