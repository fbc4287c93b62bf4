// Holds JSON files against a schema: validate.mjs SCHEMA FILE... Exit 0 where all fit.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const require = createRequire(process.cwd() + "/");
const Ajv = require("ajv/dist/2020").default;
const addFormats = require("ajv-formats").default;

const [schemaFile, ...files] = process.argv.slice(2);
const ajv = new Ajv({ strict: false, allErrors: true });
addFormats(ajv);
const validate = ajv.compile(JSON.parse(readFileSync(schemaFile, "utf8")));
let bad = 0;
for (const file of files) {
  if (validate(JSON.parse(readFileSync(file, "utf8")))) continue;
  ++bad;
  console.log(file, JSON.stringify(validate.errors.slice(0, 5), null, 1));
}
console.log(`${files.length} files against ${schemaFile}: ${bad} do not fit`);
process.exit(bad === 0 && files.length > 0 ? 0 : 1);
