// The page of `norma live` in a browser: NORMA, and a folder with five.norma and chair_3.yaml, which
// are edited here. The picture follows the text, the keyboard works, axe finds nothing, nothing but
// the loopback is asked, and nothing is complained of.
import { spawn } from "node:child_process";
import fs from "node:fs";
import path from "node:path";

import { axe, expect, faults, launch, until } from "./page.mjs";

const [program, folder] = [process.argv[2], path.resolve(process.argv[3])];

const norma = spawn(program, ["live", "--on", "2026-11-25", "--kit", "chair_3.yaml", "five.norma"], { cwd: folder, stdio: ["ignore", "pipe", "inherit"] });
let told = "";
norma.stdout.on("data", (bytes) => { told += bytes; });
await until("the address", () => /\/\n/.test(told));
const address = told.match(/http:\/\/127\.0\.0\.1:\d+\/[0-9a-f]{32}\//)[0];

const browser = await launch();
const page = await browser.newPage();
let ended = false;
page.on("console", (message) => { if (!ended) faults.push(`the page says ${message.text()}`); });
page.on("pageerror", (error) => faults.push(`${error}`));
page.on("request", (request) => {
  if (!request.url().startsWith(address) && !request.url().startsWith("data:")) faults.push(`the page asks for ${request.url()}`);
});
page.on("response", (response) => { if (response.status() !== 200) faults.push(`${response.status()} ${response.url()}`); });
await page.goto(address, { waitUntil: "domcontentloaded" });

const shown = () => page.evaluate(() => document.getElementById("view-title").textContent);
const drawn = () => page.evaluate(() => document.querySelector("#finder svg")?.outerHTML ?? "");
const revision = () => page.evaluate(() => Number(document.getElementById("view").dataset.revision));
const edit = (from, to, file = "five.norma") => {
  const name = path.join(folder, file);
  const text = fs.readFileSync(name, "utf8");
  if (!text.includes(from)) faults.push(`there is no ${from} to edit`);
  fs.writeFileSync(name + ".new", text.replace(from, to));
  fs.renameSync(name + ".new", name); // as editors do
};
await until("the first view", async () => (await shown()) === "Front, teeth together" && (await drawn()) !== "");

// The keyboard, and who has the focus keeps it.
await page.keyboard.press("ArrowRight");
await until("the next view", async () => (await shown()) === "Upper arch");
await page.keyboard.press("5");
await until("the fifth", async () => (await shown()) === "Left side");
await page.keyboard.press("ArrowRight");
await page.keyboard.press("9");
expect("there is no ninth", await shown(), "Left side");
await page.click("#views li:nth-child(3) button");
await until("the third", async () => (await shown()) === "Lower arch");
await page.keyboard.press("ArrowLeft");
await until("the second", async () => (await shown()) === "Upper arch");
expect("the focus", await page.evaluate(() => document.activeElement.textContent.startsWith("2upper")), true);
for (const target of await page.$$("button")) {
  const box = await target.boundingBox();
  if (box.height < 44 || box.width < 44) faults.push(`a button of ${box.width} x ${box.height}`); // WCAG 2.2, 2.5.5
}

// A text that is saved: the view that was edited, its picture another, and nothing else made anew.
await page.evaluate(() => { window.keptButton = document.querySelector("#views button"); });
edit("facial 12 to 17, 42 to 47", "facial 13 to 17, 43 to 47");
await until("what was edited", async () => (await shown()) === "Right side" && (await drawn()) !== "");
expect("the buttons are the same", await page.evaluate(() => window.keptButton === document.querySelector("#views button")), true);
let before = await drawn();
let at = await revision();
edit("60 deg from midline", "50 deg from midline");
await until("another picture", async () => (await drawn()) !== before);
if ((await revision()) <= at) faults.push("the picture is another, and its text is not");

// Half a line: the picture stays, and the page says so.
before = await drawn();
edit("facial 13 to 17, 43 to 47", "facial 13 to 1, 43 to 47");
await until("being told", () => page.evaluate(() => !document.getElementById("warning").hidden));
expect("the last good picture", await drawn(), before);
expect("the finding", await page.evaluate(() => /there is no tooth 1/.test(document.getElementById("here").textContent)), true);
const accessible = async (what) => {
  await page.evaluate(axe); // a script element is stopped by the page's own policy
  const { violations } = await page.evaluate(() => axe.run());
  for (const found of violations) faults.push(`${what}: ${found.id}: ${found.nodes[0].html.slice(0, 120)}`);
};
for (const scheme of ["light", "dark"]) {
  for (const width of [1280, 320]) {
    await page.setViewport({ width, height: 800 });
    await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: scheme }]);
    await accessible(`${scheme}, ${width} wide`);
    expect(`${width} wide`, await page.evaluate(() => document.documentElement.scrollWidth), width);
  }
}
edit("facial 13 to 1, 43 to 47", "facial 13 to 17, 43 to 47");
await until("being mended", () => page.evaluate(() => document.getElementById("warning").hidden));

// Held on a view, the page stays there; the kit is followed.
await page.keyboard.press("1");
await page.keyboard.press("f");
await until("the first", async () => (await shown()) === "Front, teeth together");
at = await revision();
edit("50 deg from midline", "55 deg from midline");
await until("the next text", async () => (await revision()) > at);
expect("the view that was chosen", await shown(), "Front, teeth together");
edit("title: Chair 3", "title: Our chair", "chair_3.yaml");
await until("the kit", () => page.evaluate(() => /Our chair/.test(document.getElementById("about").textContent)));

// Another origin gets nothing, with the key or without.
const other = await browser.newPage();
await other.goto("data:text/html,<title>other</title>");
const stolen = await other.evaluate(async (url) => {
  try { return (await fetch(url)).status; } catch { return "nothing"; }
}, address);
expect("another origin", stolen, "nothing");
for (const [url, more] of [[address.replace(/[0-9a-f]{32}/, "0".repeat(32)), {}], [address, { headers: { Origin: "http://evil.example" } }]])
  expect(url, (await fetch(url, more)).status, 403);
await other.close();

ended = true; // the browser complains that the stream is gone
norma.kill("SIGINT");
const code = await new Promise((done) => norma.on("exit", done));
expect("exit code", code, 0);
await until("the end", () => page.evaluate(() => /has ended/.test(document.getElementById("status").textContent)));
await browser.close();
for (const fault of faults) console.error(fault);
process.exit(faults.length === 0 ? 0 : 1);
