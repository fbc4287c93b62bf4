// Writes what is measured: 1,000 protocols of nine views, one of 10,000 views, and the same content
// as YAML with a JSON Schema: make.mjs FOLDER.
import { mkdirSync, writeFileSync } from "node:fs";

const folder = process.argv[2];
mkdirSync(folder + "/norma", { recursive: true });
mkdirSync(folder + "/yaml", { recursive: true });

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

const norma = (name, views) =>
  `norma 1\n\nprotocol ${name} "Measured" {\n  for              adults\n  sensor           36 x 24 mm\n` +
  views
    .map((v) =>
      `\n  view ${v.name} "${v.title}" {\n` +
      Object.entries(v.fields).map(([k, x]) => `    ${k.padEnd(18)} ${x}\n`).join("") + "  }\n")
    .join("") + "}\n";
const yaml = (name, views) =>
  `protocol: ${name}\nfor: adults\nsensor: 36 x 24 mm\nviews:\n` +
  views
    .map((v) =>
      `  - name: ${v.name}\n    title: ${v.title}\n` +
      Object.entries(v.fields).map(([k, x]) => `    ${k}: ${JSON.stringify(x.replaceAll('"', ""))}\n`).join(""))
    .join("");

const nine = [...Array(9).keys()].map(view);
for (let i = 0; i < 1000; ++i) {
  writeFileSync(`${folder}/norma/p${i}.norma`, norma(`p${i}`, nine));
  writeFileSync(`${folder}/yaml/p${i}.yaml`, yaml(`p${i}`, nine));
}
const many = [...Array(10000).keys()].map(view);
writeFileSync(`${folder}/big.norma`, norma("big", many));
writeFileSync(`${folder}/big.yaml`, yaml("big", many));

const text = { type: "string" };
const properties = { name: { type: "string", pattern: "^[a-z]\\w*$" }, title: text };
for (const key of Object.keys(nine[0].fields)) properties[key] = text;
properties.ratio = { type: "string", pattern: "^\\d+:\\d+$" };
properties.aperture = { type: "string", pattern: "^f/\\d+" };
writeFileSync(`${folder}/schema.json`, JSON.stringify({
  type: "object",
  required: ["protocol", "for", "sensor", "views"],
  additionalProperties: false,
  properties: {
    protocol: text, for: { enum: ["adults", "children"] }, sensor: text,
    views: { type: "array", items: { type: "object", required: ["name", "ratio", "must show"],
                                     additionalProperties: false, properties } },
  },
}));
