/** The room of this program, put together when a page of it is first opened. */
import type { RoundStage } from "../../engine/rounds/index.ts";
import { version } from "../../package.json";
import { Judge } from "../judging/judge.ts";
import { LabKit } from "../room/labKit.ts";
import { RoomDesk } from "../room/roomDesk.ts";
import type { KeepingPlace } from "../session/keepingPlace.ts";
import { shellDoorOf } from "../shell/index.ts";
import type { KitProgram } from "./kitProgram.ts";

/** @param styleRound how Call a Style stands at this kit, where it was opened. */
export function startRoom(
  { session, sound }: KitProgram,
  place: KeepingPlace,
  styleRound: () => RoundStage | undefined,
): RoomDesk {
  const judge = new Judge();
  const clickNow = () => {
    const at = styleRound();
    return at?.stage === "playing" ? at.click : null;
  };
  return new RoomDesk({
    place,
    program: version,
    own: session.kits[0].log,
    far: session.kits[1].log,
    soundFar: () => sound.soundComing(),
    fetchConnect: async () => (await import("mqtt")).default.connect,
    reach: async (address) => {
      await shellDoorOf(window)?.ask("reachRoom", { address });
    },
    labKit: (tell) => new LabKit((take) => judge.judge(take), tell, clickNow),
    makeId: () => crypto.randomUUID(),
    now: () => performance.now() / 1000,
  });
}
