// What the tests of pages in a browser share. puppeteer-core and axe-core are those of the current
// folder.
import { createRequire } from "node:module";
import fs from "node:fs";

const require = createRequire(process.cwd() + "/");
const puppeteer = require("puppeteer-core");
export const axe = fs.readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
export const faults = [];
export const expect = (what, is, should) => {
  if (JSON.stringify(is) !== JSON.stringify(should))
    faults.push(`${what}: ${JSON.stringify(is)}, not ${JSON.stringify(should)}`);
};
export const until = async (what, holds) => {
  for (let i = 0; i < 100; ++i) {
    if (await holds()) return;
    await new Promise((done) => setTimeout(done, 100));
  }
  faults.push(`${what}: not within ten seconds`);
};
export const launch = () =>
  puppeteer.launch({
    executablePath: "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--disable-background-networking"],
  });
