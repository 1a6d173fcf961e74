import { expect, test } from "vitest";
import { fileTrouble } from "../../../electron/files/fileTrouble.ts";

test.each([
  ["ENOSPC", "there is no room left"],
  ["EDQUOT", "there is no room left"],
  ["EACCES", "not allowed there"],
  ["EROFS", "not allowed there"],
  ["EBUSY", "another program holds it open"],
  ["ENOENT", "not there any more"],
  ["ENAMETOOLONG", "a shorter or plainer one"],
  ["EIO", "Try another disk"],
  ["EODD", "odd thing. Try again"],
])("%s is said in words", (code, words) => {
  const error = Object.assign(new Error("odd thing"), { code });
  const said = fileTrouble("Shuffle.mid was not saved", error);
  expect(said).toMatch(/^Shuffle\.mid was not saved: /);
  expect(said).toContain(words);
});
