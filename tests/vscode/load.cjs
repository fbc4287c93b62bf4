// The packed extension without VS Code: what it asks of the editor is answered by stand-ins, the
// server is the real one. load.cjs EXTENSION NORMA FOLDER. (VS Code itself is not to be had here.)
"use strict";
const Module = require("node:module");
const fs = require("node:fs");
const path = require("node:path");
const net = require("node:net");

const [extension, norma, folder] = process.argv.slice(2).map((name) => path.resolve(name));
const faults = [];
const expect = (what, is, should) => {
  if (JSON.stringify(is) !== JSON.stringify(should)) faults.push(`${what}: ${JSON.stringify(is)}, not ${JSON.stringify(should)}`);
};
const until = async (what, holds) => {
  for (let i = 0; i < 100; ++i) {
    if (await holds()) return;
    await new Promise((done) => setTimeout(done, 100));
  }
  faults.push(`${what}: not within ten seconds`);
};

// No network: whatever would connect is a fault.
net.Socket.prototype.connect = function () {
  faults.push("it connects to something");
  return this;
};

// Anything of the editor that nobody here looks at: it may be called, made, extended and read from.
function anything() {
  const kept = new Map();
  return new Proxy(class {}, {
    get(target, key) {
      if (key === "prototype") return target.prototype;
      if (key === "then" || typeof key === "symbol") return undefined;
      if (!kept.has(key)) kept.set(key, anything());
      return kept.get(key);
    },
    apply: () => anything(),
  });
}
class Event {
  listeners = [];
  on = (listener, self) => {
    this.listeners.push(self ? listener.bind(self) : listener);
    return { dispose() {} };
  };
  fire(value) { return Promise.all(this.listeners.map((listener) => listener(value))); }
}
class Uri {
  constructor(fsPath) { this.scheme = "file"; this.fsPath = this.path = fsPath; }
  static file(name) { return new Uri(name); }
  static parse(text) { return new Uri(decodeURIComponent(text.replace(/^file:\/\//, ""))); }
  with() { return this; }
  toString() { return "file://" + this.fsPath; }
}
class Position { constructor(line, character) { this.line = line; this.character = character; } }
class Range { constructor(start, end) { this.start = start; this.end = end; } }
class Disposable {
  constructor(what) { this.dispose = what ?? (() => {}); }
}
class Diagnostic { constructor(range, message, severity) { Object.assign(this, { range, message, severity }); } }

const file = path.join(folder, "five.norma");
const document = {
  uri: Uri.file(file), languageId: "norma", version: 1, isClosed: false, isDirty: false, fileName: file,
  text: fs.readFileSync(file, "utf8"), getText() { return this.text; },
};
const settings = { program: norma, language: "en", kit: "" };
const events = Object.fromEntries(["open", "change", "close", "config", "active"].map((name) => [name, new Event()]));
const diagnostics = new Map();
const registered = new Map();
const messages = [];
const posted = [];
let pick;
let panel;
const home = { uri: Uri.file(folder), name: "folder", index: 0 };
const configuration = {
  get: (key, other) => settings[key] ?? other,
  has: (key) => key in settings,
  inspect: () => undefined,
  update: async (key, value) => {
    settings[key] = value;
    await events.config.fire({ affectsConfiguration: (name) => name === "norma." + key || name === "norma" });
  },
};
const space = (own) => new Proxy(own, {
  get(target, key) {
    if (!(key in target) && typeof key === "string") target[key] = key.startsWith("on") ? () => new Disposable() : anything();
    return target[key];
  },
});
const vscode = space({
  version: "1.91.0",
  Uri, Position, Range, Disposable, Diagnostic,
  RelativePattern: class {},
  CancellationError: class extends Error {},
  EventEmitter: class { e = new Event(); event = this.e.on; fire(value) { void this.e.fire(value); } dispose() {} },
  CancellationTokenSource: class { token = { isCancellationRequested: false, onCancellationRequested: () => new Disposable() }; cancel() {} dispose() {} },
  DiagnosticSeverity: { Error: 0, Warning: 1, Information: 2, Hint: 3 },
  ConfigurationTarget: { Global: 1, Workspace: 2, WorkspaceFolder: 3 },
  ViewColumn: { Beside: -2 },
  TextDocumentChangeReason: {},
  env: space({ appName: "stand-in", language: "en", uriScheme: "vscode" }),
  extensions: space({ getExtension: () => undefined, all: [] }),
  languages: space({
    match: (selector, text) => selector.some?.((one) => one.language === text.languageId) ? 10 : 0,
    createDiagnosticCollection: () => ({ set: (uri, all) => diagnostics.set(uri.toString(), all), delete: (uri) => diagnostics.delete(uri.toString()), clear() {}, dispose() {}, get() {}, has() {}, forEach() {} }),
  }),
  commands: space({ registerCommand: (name, run) => { registered.set(name, run); return new Disposable(); } }),
  workspace: space({
    workspaceFolders: [home], textDocuments: [document], notebookDocuments: [],
    getWorkspaceFolder: () => home,
    asRelativePath: (uri) => path.relative(folder, uri.fsPath),
    findFiles: async () => fs.readdirSync(folder).filter((name) => name.endsWith(".yaml")).map((name) => Uri.file(path.join(folder, name))),
    fs: { readFile: async (uri) => fs.readFileSync(uri.fsPath) },
    getConfiguration: () => configuration,
    createFileSystemWatcher: () => space({ dispose() {} }),
    onDidOpenTextDocument: events.open.on, onDidChangeTextDocument: events.change.on,
    onDidCloseTextDocument: events.close.on, onDidChangeConfiguration: events.config.on,
  }),
  window: space({
    activeTextEditor: { document }, visibleTextEditors: [{ document }],
    tabGroups: { all: [], onDidChangeTabs: () => new Disposable(), activeTabGroup: {} },
    onDidChangeActiveTextEditor: events.active.on,
    createOutputChannel: () => ({ append(text) { messages.push(text); }, appendLine(text) { messages.push(text); }, show() {}, clear() {}, dispose() {}, info() {}, error() {}, warn() {}, trace() {}, debug() {} }),
    showErrorMessage: async (text) => { messages.push(text); },
    showInformationMessage: async (text) => { messages.push(text); },
    showQuickPick: async (all) => { pick = all; return all[0]; },
    createWebviewPanel: () => {
      const inbox = new Event();
      panel = {
        webview: { html: "", postMessage: async (message) => { posted.push(message); return true; }, onDidReceiveMessage: inbox.on },
        say: (message) => inbox.fire(message), onDidDispose: () => new Disposable(), reveal() {}, dispose() {},
      };
      return panel;
    },
  }),
});
const load = Module._load;
Module._load = function (name, ...rest) { return name === "vscode" ? vscode : load.call(this, name, ...rest); };

(async () => {
  const manifest = JSON.parse(fs.readFileSync(path.join(extension, "package.json"), "utf8"));
  const its = require(path.join(extension, manifest.main));
  const context = { subscriptions: [] };
  await its.activate(context);
  const found = () => diagnostics.get(document.uri.toString())?.map((one) => one.message) ?? [];
  await until("findings without a kit", () => diagnostics.has(document.uri.toString()));

  // Each command of the manifest is there: the extension's, or the server's by its client.
  for (const { command } of manifest.contributes.commands)
    if (!registered.has(command)) faults.push(`nobody does ${command}`);

  // The kit: offered, kept, and used.
  await registered.get("norma.pickKit")();
  expect("kits", pick, ["chair_3.yaml", "No kit"]);
  expect("the setting", settings.kit, "chair_3.yaml");
  await until("findings with the kit", () => found().some((text) => text.includes("with chair_3")));

  // The picture: the server's page, its states and its views.
  await registered.get("norma.picture")();
  if (!panel.webview.html.startsWith("<!doctype html>")) faults.push("the panel has no page");
  await panel.say({ ready: true });
  await until("a state", () => posted.some((message) => message.state?.views.length === 5));
  await panel.say({ view: 3 });
  await until("a view", () => posted.some((message) => message.view?.name === "right" && message.view.finder.startsWith("<svg ")));

  // What is typed comes to it.
  const was = "facial 12 to 17, 42 to 47";
  const at = document.text.indexOf(was);
  const line = document.text.slice(0, at).split("\n").length - 1;
  const character = at - document.text.lastIndexOf("\n", at) - 1;
  document.text = document.text.replace(was, "facial 1x to 17, 42 to 47");
  document.version = 2;
  await events.change.fire({
    document, reason: undefined,
    contentChanges: [{ range: new Range(new Position(line, character + 7), new Position(line, character + 9)), rangeOffset: at + 7, rangeLength: 2, text: "1x" }],
  });
  await until("the mistake", () => found().some((text) => /1x|cannot be read|tooth/.test(text)));
  await until("a state with it", () => posted.some((message) => message.state?.findings.some((one) => one.grave === "error")));
  await panel.say({ view: 3 });
  await until("the last good picture", () => posted.some((message) => message.view?.warning && message.view.finder));

  await its.deactivate();
  for (const one of context.subscriptions) one.dispose();
  for (const fault of faults) console.error(fault);
  if (faults.length > 0) console.error(messages.join("\n"));
  process.exit(faults.length === 0 ? 0 : 1);
})().catch((error) => { console.error(error); console.error(messages.join("\n")); process.exit(1); });
