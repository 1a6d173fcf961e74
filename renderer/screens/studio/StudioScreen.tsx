import { Note, Page } from "../../app/Page.tsx";
import { AllCautions } from "./AllCautions.tsx";
import { BackUp } from "./BackUp.tsx";
import { DemoStudio } from "./DemoStudio.tsx";
import { EraseAll } from "./EraseAll.tsx";
import { NamesOfSigns } from "./NamesOfSigns.tsx";
import { Restore } from "./Restore.tsx";
import styles from "./Studio.module.css";
import { WhereItIs } from "./WhereItIs.tsx";

/** Studio: where everything is kept, how it is backed up, put back and erased; all cautions; the demo studio. */
export function StudioScreen() {
  return (
    <Page
      title="Studio"
      sub={<p>What is kept of your teaching, and where.</p>}
      margin={
        <Note heading="No network">
          <p>
            No account, and nothing is sent anywhere, unless you join a room: then your name there and your
            strikes go to it. Backups and files go where you save them, and nowhere else.
          </p>
        </Note>
      }
    >
      <div className={styles.parts}>
        <WhereItIs />
        <BackUp />
        <Restore />
        <NamesOfSigns />
        <DemoStudio />
        <AllCautions />
        <EraseAll />
      </div>
    </Page>
  );
}
