// Writes what is measured: 1,000 protocols of nine views that are alike, 1,000 of five views of which
// no two say the same, one of 10,000 views, and the same content as YAML with a JSON Schema:
// make.mjs FOLDER.
import { mkdirSync, writeFileSync } from "node:fs";

const folder = process.argv[2];
for (const kind of ["alike", "unlike"]) {
  mkdirSync(`${folder}/${kind}/norma`, { recursive: true });
  mkdirSync(`${folder}/${kind}/yaml`, { recursive: true });
}

// Nothing stands against any of them: faults would be measured, not checking.
const kinds = [
  { show: "facial 15 to 25, 45 to 35", sharp: "facial 12 to 22", focus: 12 },
  { show: "facial 13 to 23", sharp: "facial 12 to 22", focus: 12 },
  { show: "facial 14 to 24, 44 to 34", sharp: "facial 11, 21", focus: 11 },
  { side: "right", angle: 45, show: "facial 12 to 15, 42 to 45", sharp: "facial 14", focus: 14 },
  { side: "right", angle: 50, show: "facial 13 to 15, 43 to 45", sharp: "facial 14", focus: 14 },
  { side: "right", angle: 40, show: "facial 13 to 15", sharp: "facial 14", focus: 14 },
  { side: "left", angle: 45, show: "facial 22 to 25, 32 to 35", sharp: "facial 24", focus: 24 },
  { side: "left", angle: 50, show: "facial 23 to 25, 33 to 35", sharp: "facial 24", focus: 24 },
  { side: "left", angle: 40, show: "facial 23 to 25", sharp: "facial 24", focus: 24 },
];

function view(i) {
  const k = kinds[i % kinds.length];
  const camera = k.side ? `from ${k.side}, ${k.angle} deg from midline` : "straight ahead";
  const pull = (side) => k.side === side ? "tension firm, outwards and back, held by assistant"
                                         : "tension light, held by patient";
  return {
    name: `v${i}`,
    title: `View ${i}`,
    fields: {
      ratio: "1:2",
      aperture: "f/22 to f/32",
      iso: "200",
      shutter: "1/125 s",
      exposure: "as view v0",
      "retractor right": pull("right"),
      "retractor left": pull("left"),
      "if not possible": "write the reason",
      teeth: "together, usual bite",
      camera,
      "focus on": String(k.focus),
      "must show": k.show,
      "must be sharp": k.sharp,
      say: '"Teeth together, please."',
      "stop if": '"the patient raises a hand"',
      "take again at most": "2 times",
    },
  };
}

// The records of a school that never says the same thing twice: one `every mouth view`, then front,
// upper, lower, right and left, each with a geometry and words of its own.

/// Numbers of a fixed seed, from 0 up to 1 (mulberry32).
function numbers(seed) {
  return () => {
    seed = (seed + 0x6d2b79f5) | 0;
    let t = Math.imul(seed ^ (seed >>> 15), 1 | seed);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
const random = numbers(20260901);
const between = (least, most) => least + Math.floor(random() * (most - least + 1));
const one = (list) => list[between(0, list.length - 1)];
const tenth = (least, most) => String(between(least * 10, most * 10) / 10);

const mouth_words =
  ("teeth lip cheek tongue light mirror air hand chair head chin breath nose quiet still slowly please now " +
   "gently open close turn hold wait rest again once ready picture camera patient assistant").split(" ");
function sentence() {
  const words = Array.from({ length: between(6, 14) }, () => one(mouth_words));
  const said = words.join(" ");
  return `"${said[0].toUpperCase()}${said.slice(1)}."`;
}

/// Teeth of the right side, on the side of the view.
const on_side = (teeth, side) =>
  side === "right" ? teeth : teeth.replaceAll(/\b[14](?=\d)/g, (q) => (q === "1" ? "2" : "3"));

function arch(name) {
  const [right, left, head, towards] =
    name === "upper" ? [1, 2, "tipped back", "top"] : [4, 3, "tipped down", "bottom"];
  const fields = {
    mouth: `open at least ${tenth(30, 45)} mm`,
    head,
    mirror: `occlusal, opened ${tenth(30, 60)} deg, held by assistant`,
    air: "on the mirror, held by assistant",
    photographed: "in a mirror",
    "focus on": `${one([right, left])}${between(2, 3)}`,
    "must show": `occlusal ${right}${between(5, 7)} to ${left}${between(5, 7)}`,
    "must be sharp": `occlusal ${right}${between(3, 5)} to ${left}${between(3, 5)}`,
    picture: `as seen directly, front teeth at the ${towards}`,
  };
  if (name === "lower") fields.tongue = "back, behind the mirror";
  return fields;
}

const front = () => ({
  teeth: `together, ${one(["usual bite", "centric relation"])}`,
  camera: "straight ahead",
  "centre on": "between 11 and 21",
  "focus on": one(["11", "12", "21", "22"]),
  "must show": `facial 1${between(4, 6)} to 2${between(4, 6)}, 4${between(4, 6)} to 3${between(4, 6)}`,
  "must be sharp": `facial 1${between(1, 2)} to 2${between(1, 2)}`,
});

/// Both sides of a record are taken alike, but each in its own words.
function sides() {
  const [focus, first, last] = [between(4, 5), between(2, 3), between(5, 6)];
  const angle = tenth(35, 65);
  const height = random() < 0.5 ? `, ${tenth(0.5, 9)} deg from ${one(["above", "below"])}` : "";
  const [centre, jaw] = [between(3, 5), one([1, 4])];
  const own = light();
  const pull = (here) =>
    here ? "tension firm, outwards and back, held by assistant" : "tension light, held by patient";
  return (side) => ({
    ...own,
    teeth: "together, usual bite",
    camera: `from ${side}, ${angle} deg from midline${height}`,
    "retractor right": pull(side === "right"),
    "retractor left": pull(side === "left"),
    "centre on": on_side(`1${centre}`, side),
    "focus on": on_side(`${jaw}${focus}`, side),
    "must show": on_side(`facial 1${first} to 1${last}, 4${first} to 4${last}`, side),
    "must be sharp": on_side(`facial 1${focus}, 4${focus}`, side),
  });
}

const light = () => ({
  ratio: `1:${tenth(2.4, 3.4)}`,
  aperture: `f/${one([16, 18, 20, 22])} to f/${one([29, 32])}`,
});

function unlike() {
  const geometry = { front, upper: () => arch("upper"), lower: () => arch("lower") };
  geometry.right = geometry.left = sides();
  const views = ["front", "upper", "lower", "right", "left"].map((name) => ({
    name,
    title: sentence().slice(1, -2),
    fields: {
      ...light(),
      ...geometry[name](name),
      "teeth turned away": `at most ${tenth(45, 75)} deg`,
      tolerance: `${tenth(3, 8)} deg of the camera, ${tenth(10, 30)} mm of distance`,
      say: sentence(),
      "take again if": sentence(),
    },
  }));
  const every = {
    iso: String(one([200, 250, 320])),
    shutter: `1/${one([100, 125, 160, 200])} s`,
    exposure: "as view front",
    "retractor both": "tension even, held by patient",
    "must not show": "fingers",
    "stop if": sentence(),
    "take again at most": `${between(1, 4)} times`,
    "if not possible": "write the reason",
  };
  return { every, views };
}

const block = (fields) =>
  Object.entries(fields).map(([k, x]) => `    ${k.padEnd(18)} ${x}\n`).join("") + "  }\n";
const norma = (name, { every, views }) =>
  `norma 1\n\nprotocol ${name} "Measured" {\n  for              adults\n  sensor           36 x 24 mm\n` +
  (every ? "\n  every mouth view {\n" + block(every) : "") +
  views.map((v) => `\n  view ${v.name} "${v.title}" {\n` + block(v.fields)).join("") + "}\n";
const entries = (fields) =>
  Object.entries(fields).map(([k, x]) => `    ${k}: ${JSON.stringify(x.replaceAll('"', ""))}\n`).join("");
const yaml = (name, { every, views }) =>
  `protocol: ${name}\nfor: adults\nsensor: 36 x 24 mm\n` +
  (every ? "every mouth view:\n" + entries(every) : "") + "views:\n" +
  views.map((v) => `  - name: ${v.name}\n    title: ${v.title}\n` + entries(v.fields)).join("");

function write(kind, name, content) {
  writeFileSync(`${folder}/${kind}/norma/${name}.norma`, norma(name, content));
  writeFileSync(`${folder}/${kind}/yaml/${name}.yaml`, yaml(name, content));
}
const nine = { views: [...Array(9).keys()].map(view) };
const fields = new Set([...nine.views, ...unlike().views].flatMap((v) => Object.keys(v.fields)));
for (const key of Object.keys(unlike().every)) fields.add(key);
const said = new Set();
for (let i = 0; i < 1000; ++i) {
  write("alike", `p${i}`, nine);
  const record = unlike();
  write("unlike", `p${i}`, record);
  for (const v of record.views) said.add(JSON.stringify({ ...v.fields, say: "", "take again if": "" }));
}
if (said.size !== 5000) throw new Error("two views say the same");
const many = { views: [...Array(10000).keys()].map(view) };
writeFileSync(`${folder}/big.norma`, norma("big", many));
writeFileSync(`${folder}/big.yaml`, yaml("big", many));

const text = { type: "string" };
const properties = { name: { type: "string", pattern: "^[a-z]\\w*$" }, title: text };
for (const key of fields) properties[key] = text;
properties.ratio = { type: "string", pattern: "^\\d+:\\d+(\\.\\d+)?$" };
properties.aperture = { type: "string", pattern: "^f/\\d+" };
writeFileSync(`${folder}/schema.json`, JSON.stringify({
  type: "object",
  required: ["protocol", "for", "sensor", "views"],
  additionalProperties: false,
  properties: {
    protocol: text, for: { enum: ["adults", "children"] }, sensor: text,
    "every mouth view": { type: "object", additionalProperties: false, properties },
    views: { type: "array", items: { type: "object", required: ["name", "ratio", "must show"],
                                     additionalProperties: false, properties } },
  },
}));
