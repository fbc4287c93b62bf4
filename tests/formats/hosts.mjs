// Holds what norma prints for code hosts against the rules that these publish, beyond any schema:
// hosts.mjs sarif|gitlab|github|junit FILE... Exit 0 where all of them fit.
import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";

const faults = [];
let file = "";
const demand = (holds, what) => holds || faults.push(`${file}: ${what}`);
const filled = (text) => typeof text === "string" && text.length > 0;
const relative = (path) => filled(path) && !/^(\/|\.\/|[a-z]+:)/i.test(path);

// "SARIF support for code scanning": supported properties, those that are required, their lengths;
// size and limits of a file.
// https://docs.github.com/en/code-security/code-scanning/integrating-with-code-scanning/sarif-support-for-code-scanning
// https://docs.github.com/en/code-security/code-scanning/troubleshooting-sarif-uploads/results-exceed-limit
function sarif(text) {
  demand(gzipSync(text).length <= 10 * 1024 * 1024, "over 10 MB when compressed");
  const log = JSON.parse(text);
  demand(filled(log.$schema) && log.version === "2.1.0", "schema or version");
  demand(log.runs.length >= 1 && log.runs.length <= 20, "number of runs");
  for (const run of log.runs) {
    const driver = run.tool.driver;
    demand(filled(driver.name) && Array.isArray(driver.rules), "driver");
    demand(driver.rules.length <= 25000 && run.results.length <= 5000, "rules or results");
    for (const rule of driver.rules) {
      demand(filled(rule.id) && rule.name.length <= 255, `id or name of ${rule.id}`);
      for (const key of ["shortDescription", "fullDescription"]) {
        const said = rule[key]?.text;
        demand(filled(said) && said.length <= 1024, `${key} of ${rule.id}`);
      }
      demand(filled(rule.help?.text), `help of ${rule.id}`);
      demand(["note", "warning", "error"].includes(rule.defaultConfiguration.level), "level");
      demand((rule.properties?.tags ?? []).length <= 10, `tags of ${rule.id}`);
    }
    const ids = new Set();
    for (const result of run.results) {
      demand(driver.rules[result.ruleIndex]?.id === result.ruleId, "rule of a result");
      demand(filled(result.message.text), "message");
      demand(result.kind === undefined || result.kind === "fail", "a result that is no finding");
      // Of the fingerprints only this one is read.
      const id = result.partialFingerprints?.primaryLocationLineHash;
      demand(/^[0-9a-f]{16}:1$/.test(id ?? ""), "fingerprint");
      demand(!ids.has(id), `fingerprint ${id} twice`);
      ids.add(id);
      demand(result.locations?.length === 1, `${result.ruleId} has no place`);
      for (const { physicalLocation } of [...(result.locations ?? []),
                                          ...(result.relatedLocations ?? [])]) {
        demand(relative(physicalLocation.artifactLocation.uri), "a path that is not relative");
        for (const key of ["startLine", "startColumn", "endLine", "endColumn"])
          demand(physicalLocation.region[key] >= 1, key);
      }
    }
    // SARIF 2.1.0 (OASIS), sections 3.20.14 and 3.58: what was not checked is of the run.
    for (const { executionSuccessful, toolExecutionNotifications } of run.invocations) {
      demand(typeof executionSuccessful === "boolean", "executionSuccessful");
      for (const n of toolExecutionNotifications) {
        demand(driver.notifications[n.descriptor.index].id === n.descriptor.id, "descriptor");
        demand(filled(n.message.text), "message of a notification");
      }
    }
  }
}

// "Code Quality", section "Code Quality report format".
// https://docs.gitlab.com/ci/testing/code_quality/#code-quality-report-format
function gitlab(text) {
  demand(!text.startsWith("\ufeff"), "a byte order mark");
  const ids = new Set();
  for (const one of JSON.parse(text)) {
    demand(filled(one.description) && filled(one.check_name), "description or check_name");
    demand(filled(one.fingerprint) && !ids.has(one.fingerprint), `fingerprint ${one.fingerprint}`);
    ids.add(one.fingerprint);
    demand(["info", "minor", "major", "critical", "blocker"].includes(one.severity), "severity");
    demand(relative(one.location.path), `path ${one.location.path}`);
    demand(Number.isInteger(one.location.lines.begin) && one.location.lines.begin >= 1, "line");
  }
}

// "Workflow commands for GitHub Actions": setting a notice, a warning, an error message.
// https://docs.github.com/en/actions/reference/workflows-and-actions/workflow-commands
// How they are written: packages/core/src/command.ts (https://github.com/actions/toolkit); ten of a
// kind for a step, 4096 characters a message: src/Runner.Worker/ExecutionContext.cs
// (https://github.com/actions/runner).
function github(text) {
  const kinds = { error: 0, warning: 0, notice: 0 };
  const lines = text.split("\n");
  demand(lines.pop() === "", "the end of the last line");
  const last = lines.pop();
  demand(!/::|##\[/.test(last), "the last line");
  let before = "error";
  for (const line of lines) {
    const found = /^::(error|warning|notice) ([^:]*)::(.*)$/.exec(line);
    demand(found !== null, `no command: ${line}`);
    if (found === null) continue;
    const [, kind, properties, message] = found;
    ++kinds[kind];
    demand(Object.keys(kinds).indexOf(before) <= Object.keys(kinds).indexOf(kind), "order");
    before = kind;
    for (const property of properties.split(",")) {
      demand(/^(file|line|endLine|col|endColumn|title)=[^=]/.test(property), property);
      demand(!property.startsWith("file=") || relative(property.slice(5)), property);
    }
    const escapes = /%(25|0D|0A|3A|2C)/g;
    demand(!/[%\r]/.test((properties + message).replace(escapes, "")), "a sign left as it is");
    demand(message.replace(escapes, " ").length <= 4096, "a message that is too long");
  }
  for (const [kind, times] of Object.entries(kinds)) demand(times <= 10, `${times} of ${kind}`);
}

// "Unit test reports": size, and names of cases.
// https://docs.gitlab.com/ci/testing/unit_test_reports/
// Elements and attributes: junit.rng.
function junit(text) {
  demand(Buffer.byteLength(text) < 30 * 1000 * 1000, "30 MB and more");
  demand(!text.includes("[[ATTACHMENT|"), "an attachment");
  const names = new Set();
  for (const [name] of text.matchAll(/<testcase [^>]*>/g)) {
    demand(!names.has(name), `twice: ${name}`);
    names.add(name);
  }
  const sum = (element, key) =>
    [...text.matchAll(new RegExp(`<${element} [^>]*\\b${key}="(\\d+)"`, "g"))]
      .reduce((all, [, n]) => all + Number(n), 0);
  demand(sum("testsuites", "tests") === names.size, "number of tests");
  demand(sum("testsuite", "tests") === names.size, "number of tests of suites");
  demand(sum("testsuite", "skipped") === (text.match(/<skipped /g) ?? []).length, "skipped");
  const failed = text.split("<testcase ").filter((one) => one.includes("<failure ")).length;
  demand(sum("testsuite", "failures") === failed, "failures");
}

const checks = { sarif, gitlab, github, junit };
const [form, ...files] = process.argv.slice(2);
for (file of files) checks[form](readFileSync(file, "utf8"));
for (const fault of faults.slice(0, 20)) console.log(fault);
console.log(`${files.length} files of the form ${form}: ${faults.length} faults`);
process.exit(faults.length === 0 && files.length > 0 ? 0 : 1);
