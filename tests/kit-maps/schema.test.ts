import { existsSync, readFileSync } from "node:fs";
import { resolve } from "node:path";
import { expect, test } from "vitest";
import { z } from "zod";
import { kitMapSchema, VOICES, ZONES } from "../../engine/kit/index.ts";

const file = resolve(import.meta.dirname, "../../kit-maps/kit-map.schema.json");
const existed = existsSync(file);

test("kit-map.schema.json is what the schema in engine/kit says", async () => {
  // A map file may leave the zone out: the schema is of what is written, not of what comes of reading it.
  const { $schema, ...rest } = z.toJSONSchema(kitMapSchema, { io: "input" });
  const text = `${JSON.stringify({ $schema, title: "A kit map of Throneside", ...rest }, null, 2)}\n`;
  await expect(
    text,
    "The schema in engine/kit has changed: write the file anew with `npx vitest run tests/kit-maps -u`.",
  ).toMatchFileSnapshot(file);
});

test("the schema file says what an editor needs: the fields, the voices, the zones", () => {
  expect(existed, "The file was missing and has just been written; run the tests again.").toBe(true);
  const schema: unknown = JSON.parse(readFileSync(file, "utf8"));
  expect(schema).toMatchObject({
    required: ["id", "name", "source", "hiHat", "pads"],
    additionalProperties: false,
    properties: {
      pads: {
        minItems: 1,
        items: {
          required: ["note", "voice"],
          properties: {
            note: { type: "integer", minimum: 0, maximum: 127 },
            voice: { enum: [...VOICES] },
            zone: { enum: [...ZONES], default: "whole" },
          },
        },
      },
    },
  });
});
