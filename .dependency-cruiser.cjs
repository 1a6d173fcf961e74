/**
 * The arrows between folders, as rules: `npm run check` fails on an import that goes against one.
 * Type-only imports count as well; TypeScript is read with swc.
 */

const { Compiler } = require("@swc/core");

// dependency-cruiser 17 asks swc for TypeScript without JSX, and swc then fails on every .tsx file. Requiring swc
// here has a second use: were it missing, the rules would be held against half-read files without a word.
const parseFileSync = Compiler.prototype.parseFileSync;
Compiler.prototype.parseFileSync = function (path, options) {
  return parseFileSync.call(this, path, { ...options, tsx: path.endsWith(".tsx") });
};

/** A folder of the engine imports only from folders that stand before it here. */
const engineFolders = [
  "units",
  "kit",
  "score",
  "catalogue",
  "grading",
  "listening",
  "speech",
  "ear",
  "recall",
  "trading",
  "rounds",
  "session",
  "rooms",
  "memory",
  "records",
  "formats",
];

/** All that the engine may use besides its own files: checking data, reading MIDI files, changing state by copy, finding by words, what fades when. */
const enginePackages = ["zod", "midi-file", "immer", "minisearch", "ts-fsrs", "temporal-polyfill"];

const engineOrder = engineFolders.slice(0, -1).map((folder, index) => ({
  name: `engine-order-${folder}`,
  comment: `engine/${folder} must not know the folders that come after it in the order.`,
  severity: "error",
  from: { path: `^engine/${folder}/` },
  to: { path: `^engine/(${engineFolders.slice(index + 1).join("|")})/` },
}));

/** `from` and `to` are top-level folders; `comment` says why. */
function never(name, from, to, comment) {
  return {
    name,
    comment,
    severity: "error",
    from: { path: `^${from}/` },
    to: { path: `^(${to.join("|")})/` },
  };
}

/** A file in a folder of the engine that is neither its index.ts nor data. */
const insideAnEngineFolder = "^engine/[^/]+/(?!index\\.ts$)(?!.*\\.json$)";

module.exports = {
  forbidden: [
    ...engineOrder,
    {
      name: "engine-folder-unknown",
      comment: "A folder that is not in the engine's order has no place in it yet; add it to the order.",
      severity: "error",
      from: {},
      to: { path: "^engine/", pathNot: `^engine/(${engineFolders.join("|")})/` },
    },
    never(
      "engine-knows-no-user",
      "engine",
      ["engraving", "renderer", "electron", "broker", "cli", "scripts", "tests"],
      "The engine is used by the others and knows none of them.",
    ),
    {
      name: "engine-without-node",
      comment: "The engine runs in a page as well as in Node: no built-in modules.",
      severity: "error",
      from: { path: "^engine/" },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "engine-packages",
      comment: `The engine uses ${enginePackages.join(", ")} and no other package.`,
      severity: "error",
      from: { path: "^engine/" },
      to: { path: "node_modules/", pathNot: `node_modules/(${enginePackages.join("|")})/` },
    },
    never(
      "engraving-arrows",
      "engraving",
      ["renderer", "electron", "broker", "cli", "scripts", "tests"],
      "The engraving knows the engine only.",
    ),
    {
      name: "engraving-without-page",
      comment:
        "The engraving runs in a page as well as in Node: no built-in modules, and no package but VexFlow.",
      severity: "error",
      from: { path: "^engraving/" },
      to: { dependencyTypes: ["core", "npm", "npm-dev"], pathNot: "node_modules/vexflow/" },
    },
    never(
      "renderer-arrows",
      "renderer",
      ["electron", "broker", "cli", "scripts", "tests"],
      "The page knows the engine and the engraving only.",
    ),
    never(
      "electron-arrows",
      "electron",
      ["engraving", "renderer", "cli", "scripts", "tests"],
      "The shell knows the engine and the broker only.",
    ),
    never(
      "broker-arrows",
      "broker",
      ["engraving", "renderer", "electron", "cli", "scripts", "tests"],
      "The broker knows the engine only.",
    ),
    never(
      "cli-arrows",
      "cli",
      ["renderer", "electron", "broker", "scripts", "tests"],
      "The command line knows the engine and the engraving only.",
    ),
    {
      name: "engine-by-its-doors-from-outside",
      comment:
        "Other folders import an engine folder through its index.ts (data files excepted). Scripts make those data " +
        "files, with parts of the engine that no user of it needs.",
      severity: "error",
      from: { pathNot: "^(engine|scripts)/" },
      to: { path: insideAnEngineFolder },
    },
    {
      name: "engine-by-its-doors-from-inside",
      comment: "An engine folder imports another through its index.ts (data files excepted).",
      severity: "error",
      from: { path: "^engine/([^/]+)/" },
      to: { path: insideAnEngineFolder, pathNot: "^engine/$1/" },
    },
    {
      name: "engraving-by-its-door",
      comment: "Other folders import the engraving through its index.ts.",
      severity: "error",
      from: { pathNot: "^engraving/" },
      to: { path: "^engraving/(?!index\\.ts$)" },
    },
    {
      name: "no-cycles",
      comment: "Two files that need each other are one concept, or a third is hidden in them.",
      severity: "error",
      from: {},
      to: { circular: true },
    },
    {
      name: "nothing-unresolved",
      comment: "An import that leads nowhere would also slip past every other rule.",
      severity: "error",
      from: {},
      // Electron's own modules are there at run time; Vite gives out addresses with a "?".
      to: { couldNotResolve: true, pathNot: "^electron$|\\?" },
    },
  ],
  options: {
    parser: "swc",
    tsPreCompilationDeps: true,
    moduleSystems: ["es6", "cjs"],
    doNotFollow: { path: "node_modules" },
    enhancedResolveOptions: {
      exportsFields: ["exports"],
      conditionNames: ["import", "require", "node", "default", "types"],
      extensions: [".ts", ".tsx", ".mjs", ".cjs", ".js", ".json", ".css"],
    },
  },
};
