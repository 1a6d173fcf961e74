import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { run, temporaryFolder } from "./program.ts";

const folder = temporaryFolder();
const notMidi = join(folder, "words.mid");
writeFileSync(notMidi, "words, not music");
const emptyFolder = join(folder, "empty");
mkdirSync(emptyFolder);

describe("--help says what there is", () => {
  test.each([{ args: ["--help"] }, { args: ["-h"] }, { args: ["identify", "--help"] }])(
    "$args",
    ({ args }) => {
      const { code, stdout, stderr } = run(args);
      expect(code).toBe(0);
      expect(stderr).toBe("");
      for (const word of ["identify", "listen", "grade", "catalogue", "export", "compare", "bench"])
        expect(stdout).toContain(word);
      for (const option of [
        "--shelf",
        "--own",
        "--stream",
        "--click",
        "--target",
        "--groove",
        "--free-start",
        "--json",
        "--map",
      ]) {
        expect(stdout).toContain(option);
      }
      expect(Math.max(...stdout.split("\n").map((line) => line.length))).toBeLessThanOrEqual(100);
    },
  );

  test("nothing said: the same text, and exit code 2", () => {
    const { code, stdout } = run([]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: run(["--help"]).stdout });
  });
});

describe("what is not understood: exit code 2, one sentence on standard error that names it, nothing done", () => {
  test.each([
    { args: ["judge", "a.mid"], says: 'There is no command "judge".' },
    { args: ["identify", "--loud", "a.mid"], says: "'--loud'" },
    { args: ["listen", "--shelf", "x", "a.mid"], says: "'--shelf'" },
    { args: ["grade", "--colour=red", "a.mid"], says: "'--colour'" },
    { args: ["catalogue", "--all"], says: "'--all'" },
    { args: ["export", "--fast"], says: "'--fast'" },
    { args: ["identify"], says: "Name at least one take" },
    { args: ["listen", "--json"], says: "Name at least one take" },
    { args: ["identify", "--click", "a.mid"], says: "Name at least one take" },
    { args: ["identify", "--stream", "a.mid"], says: "--stream reads hits from standard input" },
    { args: ["identify", "--stream", "--click", "100"], says: "--stream hears without a click" },
    { args: ["bench", "a.mid"], says: '"a.mid" is not understood here' },
    { args: ["bench", "--long"], says: "'--long'" },
    {
      args: ["identify", "--click", "fast", "a.mid"],
      says: "--click fast: this must be a tempo from 20 to 400",
    },
    { args: ["identify", "--click", "", "a.mid"], says: "this must be a tempo" },
    { args: ["listen", "--click", "5", "a.mid"], says: "--click 5" },
    { args: ["listen", "--click=-5", "a.mid"], says: "--click -5: this must be a tempo" },
    { args: ["listen", "--click", "-5", "a.mid"], says: "--click: its value is missing" },
    { args: ["grade", "--target", "--json", "a.mid"], says: "--target: its value is missing" },
    { args: ["listen", "a.mid", "--click"], says: "'--click" },
    {
      args: ["listen", "--map", "mine", "a.mid"],
      says: "--map mine: the maps are wide-nine-piece, general-midi-1",
    },
    {
      args: ["identify", "--shelf", "no/such/folder", "a.mid"],
      says: "--shelf no/such/folder: the folder cannot be opened",
    },
    {
      args: ["identify", "--own", "no/such/folder", "a.mid"],
      says: "--own no/such/folder: the folder cannot be opened",
    },
    { args: ["identify", "--own", emptyFolder, "a.mid"], says: "no groove in it can be used" },
    { args: ["listen", "--own", "x", "a.mid"], says: "'--own'" },
    { args: ["grade", "a.mid"], says: "Say either --target FILE.mid or --groove ID" },
    { args: ["grade", "--target", "a.mid", "--groove", "swing", "b.mid"], says: "Say either --target" },
    {
      args: ["grade", "--groove", "gallop", "a.mid"],
      says: "--groove gallop: the catalogue has no such groove",
    },
    {
      args: ["grade", "--target", "no-such.mid", "a.mid"],
      says: "--target no-such.mid: There is no such file.",
    },
    { args: ["grade", "--target", notMidi, "a.mid"], says: "This is not a Standard MIDI File" },
    { args: ["catalogue", "--kind", "song"], says: "--kind song: the kinds are style, fill, rudiment" },
    { args: ["catalogue", "swing"], says: '"swing" is not understood here' },
    {
      args: ["export", "--to", "mid", "--out", "x.mid"],
      says: "Name what to export: either --groove ID or --take FILE",
    },
    {
      args: ["export", "--groove", "swing", "--out", "x"],
      says: "Say what to write: --to mid, musicxml, csv, svg",
    },
    { args: ["export", "--groove", "swing", "--to", "wav", "--out", "x"], says: "--to wav" },
    { args: ["export", "--groove", "swing", "--to", "mid"], says: "Name the file to write: --out FILE" },
    { args: ["export", "--groove", "gallop", "--to", "mid", "--out", "x"], says: "no such groove" },
    {
      args: ["export", "--groove", "swing", "--bars", "0", "--to", "mid", "--out", "x"],
      says: "--bars 0: this must be a whole number of bars",
    },
    {
      args: ["export", "--groove", "swing", "--bars", "1.5", "--to", "mid", "--out", "x"],
      says: "--bars 1.5",
    },
    {
      args: ["export", "--groove", "swing", "--bpm", "1000", "--to", "mid", "--out", "x"],
      says: "--bpm 1000",
    },
  ])("$args", ({ args, says }) => {
    const { code, stdout, stderr } = run(args);
    expect({ code, stdout }).toEqual({ code: 2, stdout: "" });
    expect(stderr).toContain(says);
    expect(stderr.trimEnd().split("\n").length).toBe(1);
    expect(stderr).toMatch(/ See --help\.\n$/);
  });
});
