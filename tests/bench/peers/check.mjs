// YAML files read by js-yaml and held against a schema by ajv: check.mjs SCHEMA FILE...
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const require = createRequire(process.cwd() + "/");
const Ajv = require("ajv");
const yaml = require("js-yaml");
const [schema, ...files] = process.argv.slice(2);
const validate = new Ajv().compile(JSON.parse(readFileSync(schema, "utf8")));
for (const file of files) {
  if (!validate(yaml.load(readFileSync(file, "utf8")))) {
    console.error(file, validate.errors);
    process.exit(1);
  }
}
