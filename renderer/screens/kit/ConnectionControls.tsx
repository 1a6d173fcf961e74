import { useProgram } from "../../app/ProgramContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button, Choice } from "../../theme/index.ts";
import styles from "./Kit.module.css";

const NO_SECOND_KIT = "none";

/** Connect, connect again, or choose between inputs: what the state of the cable asks for. */
export function ConnectionControls() {
  const { session } = useProgram();
  const kit = useWatched(session.connection);
  const second = useWatched(session.secondKit);
  const inputs = "inputs" in kit ? kit.inputs : [];
  const others = kit.state === "connected" ? session.secondKit.free() : [];
  return (
    <>
      {(kit.state === "not-asked" ||
        kit.state === "refused" ||
        kit.state === "failed" ||
        kit.state === "asking") && (
        <Button
          weight="go"
          isDisabled={kit.state === "asking"}
          onPress={() => void session.connection.connect()}
        >
          {kit.state === "not-asked" || kit.state === "asking" ? "Connect the kit" : "Connect again"}
        </Button>
      )}
      {(inputs.length > 1 || (kit.state === "unplugged" && inputs.length > 0)) && (
        <div className={styles.choice}>
          <Choice
            label="Kit on input"
            options={inputs}
            chosen={kit.state === "connected" ? kit.input.id : null}
            onChoose={(id) => session.chooseFirst(id)}
          />
        </div>
      )}
      {(others.length > 0 || second.state !== "none") && (
        <div className={styles.choice}>
          <Choice
            label="Second kit on input"
            options={[{ id: NO_SECOND_KIT, name: "no second kit" }, ...others]}
            chosen={second.state === "none" ? NO_SECOND_KIT : second.input.id}
            onChoose={(id) => session.chooseSecond(id === NO_SECOND_KIT ? null : id)}
          />
        </div>
      )}
    </>
  );
}
