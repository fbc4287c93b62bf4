"use strict";
const part = (id) => document.getElementById(id);
const texts = document.body.dataset;
const keyOf = (view) => view.name + "\n" + (view.of || "");
let state = null; // as norma told it last
let at = null; // the view that is shown, by its key
let changes = -1; // of the text, that were followed
let drawings = {};
let asked = 0;
let follow = true;

// Nothing is touched that stays as it is: so nothing flickers, and what has the focus keeps it.
function say(node, text) {
  text = text || "";
  if (node.textContent !== text) node.textContent = text;
  node.hidden = text === "";
}
function put(list, nodes) {
  nodes.forEach((node, i) => {
    if (list.children[i] !== node) list.insertBefore(node, list.children[i] || null);
  });
  while (list.children.length > nodes.length) list.lastElementChild.remove();
}
const made = new Map(); // elements, by what they were made of
function keep(kind, data, make) {
  const key = kind + JSON.stringify(data);
  if (!made.has(key)) made.set(key, make(data));
  return { key, node: made.get(key) };
}
function drop(used) {
  for (const key of made.keys()) if (!used.has(key)) made.delete(key);
}
function element(name, kind, text) {
  const out = document.createElement(name);
  if (kind) out.className = kind;
  if (text) out.textContent = text;
  return out;
}
function draw(id, svg, caption, old) {
  const figure = part(id);
  figure.hidden = !svg;
  figure.classList.toggle("old", old);
  if (drawings[id] !== svg) {
    drawings[id] = svg;
    const image = svg ? [document.importNode(new DOMParser().parseFromString(svg, "image/svg+xml").documentElement, true)] : [];
    figure.querySelector(".drawing").replaceChildren(...image);
  }
  say(figure.querySelector("figcaption"), caption);
}

function viewButton(view) {
  const item = element("li");
  const button = element("button");
  button.type = "button";
  button.title = view.title;
  button.append(element("span", "number", String(view.number + 1)), view.name);
  const mark = { error: "\u2715", warning: "!", advice: "\u00b7" }[view.mark];
  if (mark) {
    const sign = element("span", "mark", mark);
    sign.setAttribute("aria-hidden", "true");
    button.append(sign, element("span", "apart", ", " + view.mark_text));
  }
  if (view.of) button.append(element("span", "of", view.of));
  if (view.old) button.append(element("span", "of", view.old));
  button.addEventListener("click", () => choose(view, false));
  item.append(button);
  return item;
}
function finding(data) {
  const item = element("li", data.grave);
  const head = element("p");
  head.append(element("span", "grave", data.grave_text + ": "), (data.about ? data.about + ": " : "") + data.message);
  item.append(head);
  if (data.line) item.append(element("p", "place", data.file + ", " + data.line + "  " + data.code));
  if (data.text) item.append(element("code", "", data.text));
  for (const more of data.more) item.append(element("p", "note", more));
  return item;
}

const current = () => state && state.views.find((view) => keyOf(view) === at);
function mark(focus) {
  const views = state.views;
  [...part("views").children].forEach((item, i) => {
    const button = item.firstElementChild;
    const is = keyOf(views[i]) === at;
    if ((button.getAttribute("aria-current") === "true") !== is) {
      if (is) button.setAttribute("aria-current", "true");
      else button.removeAttribute("aria-current");
      if (is) button.scrollIntoView({ block: "nearest" });
    }
    if (is && focus) button.focus({ preventScroll: true });
  });
}
function list() {
  const used = new Set();
  const all = (kind, data, make) => data.map((one) => {
    const { key, node } = keep(kind, one, make);
    used.add(key);
    return node;
  });
  put(part("views"), all("view", state.views, viewButton));
  const view = current();
  const here = state.findings.filter((one) => view && one.views.includes(view.number));
  const rest = state.findings.filter((one) => !here.includes(one));
  put(part("here"), all("here", here, finding));
  put(part("rest"), all("rest", rest, finding));
  part("here-title").hidden = here.length === 0;
  part("rest-title").hidden = rest.length === 0 || here.length === 0;
  part("none").hidden = state.findings.length > 0 || state.views.length === 0;
  say(part("more-findings"), state.more_findings);
  drop(used);
}
const lines = (id, all) => put(part(id), (all || []).map((one) => element("li", "", one)));

function show(view) {
  if (!state || keyOf(view) !== at) return; // another one is wanted by now
  say(part("view-title"), view.title);
  say(part("code"), view.code);
  say(part("of"), view.of);
  say(part("warning"), view.warning);
  draw("finder", view.finder, view.finder_caption, Boolean(view.warning));
  draw("above", view.above, view.above_caption, Boolean(view.warning));
  say(part("missing"), view.no_drawing);
  say(part("numbers"), view.numbers);
  say(part("model"), view.model);
  say(part("settings-title"), view.settings_title);
  const settings = JSON.stringify(view.settings);
  if (part("settings").dataset.of !== settings) {
    part("settings").dataset.of = settings;
    part("settings").replaceChildren(...view.settings.map((one) => {
      const row = element("div");
      const value = element("dd", "", one.value);
      if (one.note) value.append(element("small", "", one.note));
      row.append(element("dt", "", one.what), value);
      return row;
    }));
  }
  lines("worked", view.worked_out);
  lines("open-here", view.not_checked);
  part("view").dataset.revision = view.revision;
  document.title = view.title + " - " + state.title;
}
function choose(view, focus) {
  at = keyOf(view);
  mark(focus);
  list();
  ask(view.number);
}
function told(now) {
  state = now;
  say(part("title"), state.title);
  say(part("about"), state.about);
  say(part("caution"), state.caution);
  say(part("status"), state.status);
  say(part("more-views"), state.more_views);
  const changed = state.views.find((view) => view.number === state.changed.view);
  if (changed && (at === null || (follow && changes !== state.changed.count))) {
    const was = at === null ? "" : at.split("\n")[1];
    at = keyOf(state.views.find((view) => view.name === changed.name && (view.of || "") === was) || changed);
  }
  changes = state.changed.count;
  if (!current()) at = state.views.length > 0 ? keyOf(state.views[0]) : null;
  list();
  mark(false);
  lines("open-all", state.not_checked);
  const view = current();
  part("view").hidden = !view;
  say(part("no-view"), state.no_view);
  if (view) ask(view.number);
}

// Where it comes from: the page's own address, or the editor that shows it.
const editor = typeof acquireVsCodeApi === "function" ? acquireVsCodeApi() : null;
function ask(number) {
  const mine = ++asked;
  if (editor) {
    editor.postMessage({ view: number });
    return;
  }
  fetch("view/" + number, { cache: "no-store" })
    .then((answer) => (answer.ok ? answer.json() : null))
    .then((view) => { if (view && mine === asked) show(view); })
    .catch(() => {}); // norma has ended: the stream says so
}
if (editor) {
  // The editor says on the body how it looks; that may be otherwise than the system's.
  const theme = () => {
    const looks = document.body.classList;
    const dark = looks.contains("vscode-dark") || (looks.contains("vscode-high-contrast") && !looks.contains("vscode-high-contrast-light"));
    document.documentElement.dataset.theme = dark ? "dark" : "light";
  };
  theme();
  new MutationObserver(theme).observe(document.body, { attributes: true, attributeFilter: ["class"] });
  addEventListener("message", (event) => {
    if (event.data.state) told(event.data.state);
    if (event.data.view) show(event.data.view);
  });
  editor.postMessage({ ready: true });
} else {
  const stream = new EventSource("events");
  stream.addEventListener("message", (event) => told(JSON.parse(event.data)));
  stream.addEventListener("error", () => say(part("status"), texts.ended));
  stream.addEventListener("open", () => say(part("status"), state && state.status));
}

function toggle() {
  follow = !follow;
  part("follow").setAttribute("aria-pressed", String(follow));
}
part("follow").addEventListener("click", toggle);
addEventListener("keydown", (event) => {
  if (event.altKey || event.ctrlKey || event.metaKey || !state || state.views.length === 0) return;
  const views = state.views;
  const i = views.findIndex((view) => keyOf(view) === at);
  if (event.key === "f" || event.key === "F") return toggle();
  const digit = /^[0-9]$/.test(event.key) ? (Number(event.key) + 9) % 10 : null;
  const to = { ArrowRight: i + 1, ArrowDown: i + 1, ArrowLeft: i - 1, ArrowUp: i - 1 }[event.key] ?? digit;
  if (to === null || to === undefined || !views[to]) return;
  event.preventDefault();
  choose(views[to], part("views").contains(document.activeElement));
});
