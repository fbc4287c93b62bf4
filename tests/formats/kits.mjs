// Holds kits against their schema, and the schema against what norma says of them: kits.mjs SCHEMA
// LIST, each line of LIST a kit and, behind a tab, what `norma check --format json` says with it.
// Exit 0 where both agree.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const require = createRequire(process.cwd() + "/");
const Ajv = require("ajv/dist/2020").default;
const YAML = require("yaml");

const [schemaFile, listFile] = process.argv.slice(2);
const ajv = new Ajv({ strict: false, allErrors: true });
const validate = ajv.compile(JSON.parse(readFileSync(schemaFile, "utf8")));

// A key that is unknown, missing; a value that is none, or starts with a zero.
const told_by_schema = ["K003", "K007", "K008", "K012"];
// Values in range and in accord (K009) are norma's to judge; all else is about YAML itself.
const range = "K009";

let kept = 0;
let refused = 0;
let bad = 0;
const wrong = (kit, why) => {
  ++bad;
  console.log(`${kit}: ${why}`);
};
for (const line of readFileSync(listFile, "utf8").split("\n").filter((l) => l !== "")) {
  const [kit, said] = line.split("\t");
  const codes = JSON.parse(readFileSync(said, "utf8"))
    .findings.map((f) => f.code)
    .filter((code) => /^[KS]/.test(code)); // the protocol has none
  if (codes.some((code) => code !== range && !told_by_schema.includes(code))) continue;
  const text = readFileSync(kit, "utf8");
  // As norma reads it, each scalar a text; and as most programs do.
  const texts = YAML.parse(text, { schema: "failsafe" });
  const typed = YAML.parse(text, { schema: "core" });
  if (codes.some((code) => told_by_schema.includes(code))) {
    ++refused;
    if (validate(texts)) wrong(kit, `norma says ${codes.join(" ")}, the schema nothing`);
  } else if (codes.length === 0) {
    ++kept;
    for (const value of [texts, typed])
      if (!validate(value)) wrong(kit, JSON.stringify(validate.errors.slice(0, 5), null, 1));
  }
}
console.log(`${kept} kits fit ${schemaFile}, ${refused} do not, as norma says; ${bad} otherwise`);
process.exit(bad === 0 && kept > 0 && refused > 0 ? 0 : 1);
