// Starts `norma serve` as an editor does, replays random edits of every shipped protocol, and holds
// what is published after each against what `norma check` says of the same text, letter by letter.
// client.mjs NORMA PROTOCOLS [SEED [EDITS]]
import assert from 'node:assert/strict';
import { spawn, spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import protocol from 'vscode-languageserver-protocol/node.js';
import { Bytes, Open, edit, random } from './text.mjs';

const { createProtocolConnection, StreamMessageReader, StreamMessageWriter, InitializeRequest,
  InitializedNotification, ShutdownRequest, ExitNotification, DidOpenTextDocumentNotification,
  DidChangeTextDocumentNotification, DidCloseTextDocumentNotification,
  PublishDiagnosticsNotification, FoldingRangeRequest, CodeActionRequest } = protocol;

const [norma, folder, seedGiven, editsGiven] = process.argv.slice(2);
const seed = Number(seedGiven ?? 20261128);
const editsOfEach = Number(editsGiven ?? 8);
const day = '2026-11-25';
const uriOf = path => pathToFileURL(path).href;
const protocols = readdirSync(folder, { recursive: true })
  .filter(name => name.endsWith('.norma')).sort().map(name => join(folder, name));

function server(folder, encoding, kits) {
  const child = spawn(norma, ['serve', '--on', day], { stdio: ['pipe', 'pipe', 'inherit'] });
  const ended = new Promise(done => child.on('exit', done));
  const connection = createProtocolConnection(new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin));
  const published = new Map(); // by address: what was published last
  let waiting = () => {};
  connection.onNotification(PublishDiagnosticsNotification.type, told => {
    if (told.diagnostics.length || told.version !== undefined) published.set(told.uri, told);
    else published.delete(told.uri);
    waiting();
  });
  connection.onUnhandledNotification(message => assert.fail(JSON.stringify(message)));
  connection.listen();
  return {
    connection, published,
    async start() {
      const answer = await connection.sendRequest(InitializeRequest.type, {
        processId: process.pid, rootUri: uriOf(folder),
        capabilities: { general: { positionEncodings: [encoding] } },
        initializationOptions: { norma: { kit: kits } } });
      assert.equal(answer.capabilities.positionEncoding, encoding);
      await connection.sendNotification(InitializedNotification.type, {});
    },
    /// Until this version is looked at, and all that was published with it is here.
    async lookedAt(uri, version) {
      await new Promise((done, failed) => {
        const clock = setTimeout(() => failed(new Error(`nothing about version ${version}`)), 60000);
        waiting = () => {
          if (published.get(uri)?.version !== version) return;
          clearTimeout(clock);
          done();
        };
        waiting();
      });
      waiting = () => {};
      await connection.sendRequest(FoldingRangeRequest.type, { textDocument: { uri } });
    },
    async stop() {
      await connection.sendRequest(ShutdownRequest.type);
      await connection.sendNotification(ExitNotification.type);
      assert.equal(await ended, 0, 'the exit code of norma serve');
    },
  };
}

/// What `norma check` says of these files, the text of one of them from standard input.
function check(root, kits, format, files, input) {
  const run = spawnSync(norma, ['check', '--on', day, '--root', root, '--format', format,
    ...kits.flatMap(kit => ['--kit', join(root, kit)]), ...files],
    { input, maxBuffer: 1 << 28 });
  assert.ok(run.status === 0 || run.status === 1, `norma check: ${run.stderr}`);
  return run.stdout.toString();
}

// People are shown what JSON holds as it is: controls and what turns the direction of writing are
// written out (`text::printable`); a message of several lines has each of them by itself.
const acting =
  /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff\u{e0000}-\u{e007f}]/gu;
const shown = text => text.replace(acting, sign => (sign === '\t' ? ' '
  : `\\u{${sign.codePointAt(0).toString(16).padStart(2, '0')}}`));

const severities = { error: 1, warning: 2, advice: 3 };
const accepted = 4;

/// A finding of `check` as what is to be published, but for whom it is about, which the message of a
/// diagnostic starts with.
function expected(finding, place) {
  const notes = (finding.notes ?? []).map(note => `note: ${shown(note)}`);
  const help = (finding.help ?? []).map(one => `help: ${shown(one)}`);
  const why = finding.accepted_because === undefined ? [] : [`because: ${shown(finding.accepted_because)}`];
  const out = { ...place(finding.place), severity: why.length ? accepted : severities[finding.severity],
    code: finding.code, source: 'norma', message: shown(finding.message),
    more: [...why, ...notes, ...help] };
  out.related = (finding.see ?? []).map(see => ({ ...place(see.place), message: shown(see.text) }));
  out.fixes = (finding.fixes ?? []).map(
    fix => ({ ...place(fix.place), replacement: fix.replacement, safe: fix.safe }));
  return out;
}

/// The same of a diagnostic; `about` is what stands before the message.
function told(uri, diagnostic, messages) {
  const [first, ...more] = diagnostic.message.split('\n');
  const message = messages.filter(m => first === m || first.endsWith(`: ${m}`))
    .sort((a, b) => b.length - a.length)[0];
  assert.ok(message !== undefined, `norma check says nothing like: ${first}`);
  const flat = ({ location, ...rest }) => ({ uri: location.uri, range: location.range, ...rest });
  return { uri, range: diagnostic.range, severity: diagnostic.severity, code: diagnostic.code,
    source: diagnostic.source, message, more,
    related: (diagnostic.relatedInformation ?? []).map(flat),
    fixes: (diagnostic.data?.fixes ?? []).map(flat) };
}

const keys = list => [...new Set(list.map(one => JSON.stringify(one, (_, value) =>
  value && typeof value === 'object' && !Array.isArray(value)
    ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1))) : value)))].sort();

/// Holds all that is published against a fresh check; `open`: documents by file. `check`: what is said
/// of each protocol by itself.
function compare(published, open, encoding, check) {
  const texts = new Map(open); // and those of other files
  const place = at => {
    if (!texts.has(at.file))
      texts.set(at.file, new Open(uriOf(at.file), readFileSync(at.file, 'utf8'), encoding));
    const text = texts.get(at.file);
    return { uri: uriOf(at.file), range: { start: text.placeOfByte(at.offset),
                                           end: text.placeOfByte(at.offset + at.length) } };
  };
  const found = check('json').flatMap(text => {
    const json = JSON.parse(text);
    assert.equal(json.counts.not_shown, 0);
    return json.findings;
  });
  // What has no place stands at the beginning of the file that it is about.
  const wanted = found.map(finding => expected(finding, at =>
    place(at ?? { file: finding.about.file, offset: 0, length: 0 })));
  const messages = [...new Set(wanted.map(one => one.message))];
  const all = [...published].flatMap(([at, { diagnostics }]) => diagnostics.map(d => [at, d]));
  assert.deepEqual(keys(all.map(([at, d]) => told(at, d, messages))), keys(wanted));

  // Whom each is about, and how often it is told; what two protocols find alike is told once.
  const names = new Map(found.map(finding => [finding.code, finding.name]));
  const said = check('lines').map(text => text.split('\n'));
  const lines = said.flatMap((own, i) => own.filter(line => !said.slice(0, i).flat().includes(line)))
    .map(line => line.match(/:\d+:\d+: (?:error|warning|advice|accepted \w+): ([A-Z]\d{3} \w+: .*)$/u))
    .filter(Boolean).map(match => match[1]).sort();
  const first = all.map(([, d]) => `${d.code} ${names.get(d.code)}: ${d.message.split('\n')[0]}`).sort();
  assert.deepEqual(first, lines);
  return all.length;
}

let edits = 0;
let findings = 0;
const kinds = [
  ['utf-16', text => text, ['kits/chair_3.yaml']],
  ['utf-16', text => '\ufeff' + text.replaceAll('\n', '\r\n'), []],
  ['utf-8', text => text.replaceAll('\n', '\r\n'), ['kits/chair_7.yaml', 'kits/chair_3.yaml']],
  ['utf-8', text => '\ufeff' + text, []],
];
for (const [kind, [encoding, form, kits]] of kinds.entries()) {
  const session = server(folder, encoding, kits);
  await session.start();
  for (const [number, file] of protocols.entries()) {
    const below = random(seed + 1000 * kind + number);
    const uri = uriOf(file);
    const shipped = form(readFileSync(file, 'utf8'));
    const open = new Open(uri, shipped, encoding);
    const history = [];
    const compared = () => compare(session.published, [[file, open]], encoding, format =>
      [check(folder, kits, format, ['-', '--stdin-name', file], Buffer.from(open.text))]);
    try {
      await session.connection.sendNotification(DidOpenTextDocumentNotification.type,
        { textDocument: { uri, languageId: 'norma', version: open.version, text: open.text } });
      await session.lookedAt(uri, open.version);
      findings += compared();
      for (let i = 0; i < editsOfEach; ++i, ++edits) {
        // Now and then it is mended as a whole, or several edits come at once.
        const several = below(4) === 0 ? 1 + below(4) : 1;
        const drawn = i % 5 === 4 ? [shipped]
          : Array.from({ length: several }, () => text => edit(text, below));
        const contentChanges = open.change(drawn);
        history.push(contentChanges);
        await session.connection.sendNotification(DidChangeTextDocumentNotification.type,
          { textDocument: { uri, version: open.version }, contentChanges });
        await session.lookedAt(uri, open.version);
        findings += compared();
      }
      await session.connection.sendNotification(DidCloseTextDocumentNotification.type,
        { textDocument: { uri } });
      await session.connection.sendRequest(FoldingRangeRequest.type, { textDocument: { uri } })
        .catch(() => {}); // it is not open any more
      assert.deepEqual([...session.published.keys()], [], 'what is published of a closed protocol');
    } catch (fault) {
      console.error(`seed ${seed}, ${encoding}, ${fileURLToPath(uri)}, kits ${kits}; edits so far:`);
      for (const changes of history.slice(-5)) console.error(JSON.stringify(changes));
      console.error(JSON.stringify(open.text.slice(0, 4000)));
      throw fault;
    }
  }
  await session.stop();
}

// A base, a protocol that builds on it and a kit, all open: whichever is edited, all three are told
// as `norma check` tells them from the disk.
for (const [kind, encoding] of ['utf-16', 'utf-8'].entries()) {
  const top = mkdtempSync(join(tmpdir(), 'norma-client-'));
  cpSync(folder, top, { recursive: true });
  const below = random(seed + 5000 + kind);
  const session = server(top, encoding, ['kits/chair_3.yaml']);
  const names = ['orthodontic.norma', 'quarry/orthodontic.norma', 'kits/chair_3.yaml'];
  const open = names.map(name => [join(top, name),
    new Open(uriOf(join(top, name)), readFileSync(join(top, name), 'utf8'), encoding)]);
  const shipped = open.map(([, document]) => document.text);
  const history = [];
  const compared = () => compare(session.published, open, encoding, format =>
    open.slice(0, 2).map(([file]) => check(top, ['kits/chair_3.yaml'], format, [file])));
  const allLookedAt = async (uri, version) => {
    await session.lookedAt(uri, version);
    // What is not told of its own accord yet is when somebody asks about it.
    const start = { line: 0, character: 0 };
    for (const [file] of open) {
      await session.connection.sendRequest(CodeActionRequest.type, { textDocument: { uri: uriOf(file) },
        range: { start, end: start }, context: { diagnostics: [] } });
    }
  };
  await session.start();
  try {
    for (const [file, document] of open) {
      await session.connection.sendNotification(DidOpenTextDocumentNotification.type,
        { textDocument: { uri: uriOf(file), languageId: file.endsWith('yaml') ? 'yaml' : 'norma',
                          version: document.version, text: document.text } });
    }
    for (let i = 0; i < 5 * editsOfEach; ++i, ++edits) {
      const which = below(open.length);
      const [file, document] = open[which];
      const contentChanges = document.change(
        [below(3) === 0 ? shipped[which] : text => edit(text, below)]);
      history.push([file, contentChanges]);
      writeFileSync(file, document.text);
      await session.connection.sendNotification(DidChangeTextDocumentNotification.type,
        { textDocument: { uri: uriOf(file), version: document.version }, contentChanges });
      await allLookedAt(uriOf(file), document.version);
      findings += compared();
    }
  } catch (fault) {
    console.error(`seed ${seed}, ${encoding}, base, protocol and kit in ${top}; edits so far:`);
    for (const changes of history.slice(-5)) console.error(JSON.stringify(changes));
    throw fault;
  }
  await session.stop();
  rmSync(top, { recursive: true });
}
assert.ok(findings > edits, 'too few findings to say anything');
console.log(`${edits} edits of ${protocols.length} protocols, ${findings} findings: each as norma check says.`);
