import { useProgram } from "../../app/ProgramContext.tsx";
import { useWatched } from "../../session/store.ts";
import { Button, Choice } from "../../theme/index.ts";
import styles from "./Kit.module.css";

/** Connect, connect again, or choose between inputs: what the state of the cable asks for. */
export function ConnectionControls() {
  const { session } = useProgram();
  const kit = useWatched(session.connection);
  const inputs = "inputs" in kit ? kit.inputs : [];
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
            onChoose={(id) => session.connection.choose(id)}
          />
        </div>
      )}
    </>
  );
}
