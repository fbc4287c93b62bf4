// Pages of norma in a browser, from the folder in argv[2]: cards.html, faces.html, rows.html,
// list.html, other.html, compare.html. They complain of nothing, ask for nothing, have no fault that
// axe finds, and do what they are for.
import fs from "node:fs";
import path from "node:path";

import { axe, expect, faults, launch, until } from "./page.mjs";

const folder = path.resolve(process.argv[2]);

const browser = await launch();
const open = async (name) => {
  const page = await browser.newPage();
  await page.setViewport({ width: 1280, height: 900 });
  page.on("console", (message) => faults.push(`${name} says ${message.text()}`));
  page.on("pageerror", (error) => faults.push(`${name}: ${error}`));
  page.on("request", (request) => {
    if (!request.url().startsWith(`file://${folder}/`) && !request.url().startsWith("blob:"))
      faults.push(`${name} asks for ${request.url()}`);
  });
  await page.goto(`file://${folder}/${name}`);
  return page;
};
const accessible = async (page, name) => {
  await page.evaluate(axe); // a script element is stopped by the page's own policy
  for (const found of (await page.evaluate(() => axe.run())).violations)
    faults.push(`${name}: ${found.id}: ${found.nodes[0].html.slice(0, 120)}`);
};

const cards = await open("cards.html");
await accessible(cards, "cards.html");
const shown = () => cards.evaluate(() => [...document.querySelectorAll(".card.shown")].map((c) => c.dataset.place));
expect("first card", await shown(), ["1 of 5"]);
await cards.keyboard.press("ArrowRight");
expect("card behind it", await shown(), ["2 of 5"]);
await cards.keyboard.press("End");
await cards.click("#before");
expect("last card but one", await shown(), ["4 of 5"]);

// Views of the face, and the series as one table.
for (const name of ["faces.html", "rows.html"]) await accessible(await open(name), name);
const rows = await open("rows.html");
expect("rows", await rows.evaluate(() => document.querySelectorAll("tbody tr").length), 8);
expect("drawings in rows", await rows.evaluate(() => document.querySelectorAll("tbody svg").length), 8);

const list = await open("list.html");
await accessible(list, "list.html");
const fill = () => { const all = document.querySelectorAll("main input"); all[0].value = "A 17"; all[3].checked = true; };
const filled = () => { const all = document.querySelectorAll("main input"); return [all[0].value, all[3].checked]; };
await list.evaluate(fill);
const session = await list.createCDPSession();
await session.send("Browser.setDownloadBehavior", { behavior: "allow", downloadPath: folder });
await list.click("#save");
const saved = path.join(folder, "filled.json");
await until("saving", () => fs.existsSync(saved) && fs.statSync(saved).size > 0);
const again = await open("list.html");
await (await again.$("#open")).uploadFile(saved);
await until("opening", async () => (await again.evaluate(filled))[1]);
expect("what was saved", await again.evaluate(filled), ["A 17", true]);
const other = await open("other.html");
await (await other.$("#open")).uploadFile(saved);
await until("being told", () => other.evaluate(() => document.getElementById("told").textContent !== ""));
expect("another list", (await other.evaluate(filled))[0], "");

const compare = await open("compare.html");
await accessible(compare, "compare.html");
expect("drawings of both sides", await compare.evaluate(() => document.querySelectorAll(".pair svg").length), 4);

await browser.close();
for (const fault of faults) console.error(fault);
process.exit(faults.length === 0 ? 0 : 1);
