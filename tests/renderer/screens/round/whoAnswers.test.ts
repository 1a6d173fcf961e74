import { expect, test } from "vitest";
import { whoAnswers } from "../../../../renderer/screens/round/whoAnswers.ts";

test("the first who has not answered answers, unless another was chosen who has not either", () => {
  expect(whoAnswers(["ottilie", "bram"], undefined)).toBe("ottilie");
  expect(whoAnswers(["ottilie", "bram"], "bram")).toBe("bram");
  expect(whoAnswers(["ottilie"], "bram")).toBe("ottilie");
  expect(whoAnswers([null], undefined)).toBeNull();
  expect(whoAnswers([], "bram")).toBeNull();
});
