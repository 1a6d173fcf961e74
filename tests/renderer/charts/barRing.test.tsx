import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, test } from "vitest";
import { grooveById } from "../../../engine/catalogue/index.ts";
import { parseGrid } from "../../../engine/score/index.ts";
import { BarRing, type PlayedMark } from "../../../renderer/charts/index.ts";

const SON = "groove: son\nname: Son\nmetre: 4/4\nfeel: straight\ntempo: 80-120\n\n";
const still = { played: [], handPlace: undefined, size: 300, label: "Son" } as const;

/** Every element of a kind, as drawn. */
function drawn(markup: string, element: string): readonly string[] {
  return markup.match(new RegExp(`<${element} [^>]*>`, "g")) ?? [];
}

describe("what is written", () => {
  const groove = parseGrid(`${SON}clave | x..X ..g. ..x. x... |`);
  const markup = renderToStaticMarkup(<BarRing groove={groove} {...still} />);

  test("a circle a stroke, a second one inside an accent, a smaller one for a ghost, and one for the ring", () => {
    const radii = drawn(markup, "circle").map((circle) => Number(/ r="([\d.]+)"/.exec(circle)?.[1]));
    expect(radii).toHaveLength(1 + 5 + 1);
    expect(radii.filter((radius) => radius === 6.5)).toHaveLength(4);
    expect(radii.filter((radius) => radius < 4)).toHaveLength(2);
  });

  test("son's strokes stand at 0 3 6 10 12 sixteenths of the circle", () => {
    const steps = drawn(markup, "circle")
      .filter((circle) => / r="(6.5|3.9[\d]*)"/.test(circle))
      .map((circle) => {
        const at = (name: string) => Number(new RegExp(` ${name}="([\\d.]+)"`).exec(circle)?.[1]) - 150;
        const turn = Math.atan2(at("cx"), -at("cy")) / (2 * Math.PI);
        return Math.round((turn < -1e-9 ? turn + 1 : turn) * 16 * 1e6) / 1e6;
      });
    expect(steps).toEqual([0, 3, 6, 10, 12]);
  });

  test("the four beats are numbered and the voice is named", () => {
    expect([...markup.matchAll(/>(\d)<\/text>/g)].map((match) => match[1])).toEqual(["1", "2", "3", "4"]);
    expect(markup).toContain(">clave</textPath>");
  });

  test("it says that the ring is one bar", () => {
    expect(markup).toContain('role="img" aria-label="Son; the ring is one bar"');
  });
});

test("two bars go round once, numbered twice, and it is said", () => {
  const groove = parseGrid(`${SON}clave | x..x..x. | ..x.x... |`);
  const markup = renderToStaticMarkup(<BarRing groove={groove} {...still} />);
  expect([...markup.matchAll(/>(\d)<\/text>/g)].map((match) => match[1]).join("")).toBe("12341234");
  expect(markup).toContain("the ring is two bars");
  expect(markup).toContain(">2 bars</text>");
});

test("a ring stays that is neither written nor struck, beside those of what is", () => {
  const markup = renderToStaticMarkup(
    <BarRing
      groove={undefined}
      {...still}
      voices={["snare", "kick"]}
      played={[{ voice: "kick", place: 0, differs: false }]}
    />,
  );
  expect([...markup.matchAll(/>([a-z -]+)<\/textPath>/g)].map((match) => match[1])).toEqual([
    "snare",
    "kick",
  ]);
  expect(drawn(markup, "circle")).toHaveLength(2);
});

describe("what is played", () => {
  const groove = grooveById("shuffle");
  const bare = renderToStaticMarkup(<BarRing groove={groove} {...still} />);
  const withPlayed = (played: readonly PlayedMark[]) =>
    renderToStaticMarkup(<BarRing groove={groove} {...still} played={played} />);

  test("a tick across its ring at the true angle", () => {
    const markup = withPlayed([{ voice: "kick", place: 0.25, differs: false }]);
    const ticks = drawn(markup, "line").slice(drawn(bare, "line").length);
    expect(ticks).toHaveLength(1);
    expect(ticks[0]).toMatch(/x1="1(8|9)\d[\d.]*" y1="150" x2="20\d[\d.]*" y2="150"/);
  });

  test("a differing tick has a dot as well, so that shape says it", () => {
    const dots = (differs: boolean) =>
      drawn(withPlayed([{ voice: "snare", place: 0.3, differs }]), "circle").length -
      drawn(bare, "circle").length;
    expect(dots(false)).toBe(0);
    expect(dots(true)).toBe(1);
  });

  test("a voice that is not written and could mean none that is gets its own named ring", () => {
    expect(bare).not.toContain("cowbell");
    expect(withPlayed([{ voice: "cowbell", place: 0, differs: true }])).toContain(">cowbell</textPath>");
    expect(withPlayed([{ voice: "cross-stick", place: 0, differs: true }])).not.toContain("cross-stick");
  });

  test("in free play the rings come from what was played, and nothing is numbered that is not known", () => {
    const played: readonly PlayedMark[] = [
      { voice: "snare", place: 0.5, differs: false },
      { voice: "kick", place: 0, differs: false },
    ];
    const free = renderToStaticMarkup(<BarRing groove={undefined} {...still} played={played} />);
    expect([...free.matchAll(/>([^<>]+)<\/textPath>/g)].map((match) => match[1])).toEqual(["snare", "kick"]);
    expect(free).not.toMatch(/>\d<\/text>/);
    const counted = renderToStaticMarkup(<BarRing groove={undefined} {...still} played={played} beats={3} />);
    expect([...counted.matchAll(/>(\d)<\/text>/g)].map((match) => match[1]).join("")).toBe("123");
  });

  test("the hand is one line more, and none without a place", () => {
    const withHand = renderToStaticMarkup(<BarRing groove={groove} {...still} handPlace={0.5} />);
    expect(drawn(withHand, "line").length).toBe(drawn(bare, "line").length + 1);
  });

  test("a mean is a tick, and an arc of one spread either way; one stroke alone has no arc", () => {
    const withMeans = (spread: number | null) =>
      renderToStaticMarkup(
        <BarRing
          groove={groove}
          {...still}
          means={[{ voice: "kick", place: 0.25, spread, differs: false }]}
        />,
      );
    const arcs = (markup: string) => [...markup.matchAll(/d="(M[^"]*A[^"]* 0 0 1 [^"]*)" ?\/?>?/g)].length;
    expect(drawn(withMeans(0.01), "line").length).toBe(drawn(bare, "line").length + 1);
    expect(arcs(withMeans(0.01)) - arcs(bare)).toBe(1);
    expect(arcs(withMeans(null)) - arcs(bare)).toBe(0);
  });

  test("a mean that differs has a dot as well", () => {
    const mean = { voice: "kick", place: 0.25, spread: 0.01 } as const;
    const dots = (differs: boolean) =>
      drawn(
        renderToStaticMarkup(<BarRing groove={groove} {...still} means={[{ ...mean, differs }]} />),
        "circle",
      ).length - drawn(bare, "circle").length;
    expect(dots(false)).toBe(0);
    expect(dots(true)).toBe(1);
  });
});
