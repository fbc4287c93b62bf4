// The text that an editor has open: edits drawn by a seed, and places in it.
import { TextDocument } from 'vscode-languageserver-textdocument';

// Numbers from 0 to below n, the same for the same seed (the mixing steps of murmur3).
export function random(seed) {
  let state = seed >>> 0;
  return n => {
    state = (state + 0x9e3779b9) >>> 0;
    let x = state;
    x = Math.imul(x ^ (x >>> 16), 0x85ebca6b);
    x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35);
    return ((x ^ (x >>> 16)) >>> 0) % n;
  };
}

const pieces = ['}', '{', '\n', '\r\n', '\r', ' ', '\t', ',', '"', '#', '=', '1:2', '1,5', '22', 'f/23',
  'f/32', 'no', 'also', 'mirror', 'ratio 1:2', 'view x "X" { }', 'say "正面を見て"', '# 歯の写真',
  '"😀"', '😀', '牙', 'é', 'e\u0301', '\u202e', '\ufeff', '\u0000', '\u0007', '\u2028', '\u{e0041}', 'すべて',
  'accept tooth_hidden in upper because "we know 𠮷"\n', 'builds on x from "x.norma"\n'];

// Not inside of a surrogate pair.
const whole = (text, at) =>
  at > 0 && at < text.length && text.charCodeAt(at) >= 0xdc00 && text.charCodeAt(at) <= 0xdfff &&
  text.charCodeAt(at - 1) >= 0xd800 && text.charCodeAt(at - 1) <= 0xdbff ? at - 1 : at;

/// What is typed: [begin, end, text] in units of UTF-16. Pieces are taken out, put in, written over,
/// or doubled.
export function edit(text, below) {
  const begin = whole(text, below(text.length + 1));
  const end = Math.max(begin, whole(text, Math.min(text.length, begin + below(3) * below(40))));
  switch (below(5)) {
    case 0: return [begin, end, ''];
    case 1: return [begin, begin, text.slice(begin, end)];
    default: return [begin, end, pieces[below(pieces.length)]];
  }
}

// Lines end as the protocol says: \n, \r\n or \r.
const lineStarts = text => {
  const out = [0];
  for (const end of text.matchAll(/\r\n|\n|\r/g)) out.push(end.index + end[0].length);
  return out;
};

/// Places of UTF-8: the line, and bytes in it.
export class Bytes {
  constructor(text) {
    this.text = text;
    this.starts = lineStarts(text);
  }
  positionAt(offset) {
    let line = this.starts.length - 1;
    while (this.starts[line] > offset) --line;
    return { line, character: Buffer.byteLength(this.text.slice(this.starts[line], offset)) };
  }
}

/// A document as an editor keeps it. Places of UTF-16 are those of the protocol's own library.
export class Open {
  constructor(uri, text, encoding) {
    this.encoding = encoding;
    this.document = TextDocument.create(uri, 'norma', 1, text);
  }
  /// The library keeps its lines over an edit, and takes \r and \n for two where they come to stand
  /// beside each other: it counts anew.
  update(change, version) {
    TextDocument.update(this.document, [change], version);
    this.document = TextDocument.create(this.document.uri, 'norma', version, this.text);
  }
  get text() { return this.document.getText(); }
  get version() { return this.document.version; }
  places() { return this.encoding === 'utf-8' ? new Bytes(this.text) : this.document; }
  /// The place of a byte of the text.
  placeOfByte(byte) {
    const offset = Buffer.from(this.text).subarray(0, byte).toString().length;
    return this.places().positionAt(offset);
  }
  /// Takes edits over, one after the other; what to tell the server of them.
  change(edits) {
    const told = [];
    const version = this.version + 1;
    for (const edit of edits) {
      if (typeof edit === 'string') {
        told.push({ text: edit });
        this.update({ text: edit }, version);
        continue;
      }
      const [begin, end, text] = edit(this.text);
      const own = { start: this.document.positionAt(begin), end: this.document.positionAt(end) };
      // A place between \r and \n is none: the library takes the one before.
      const places = this.places();
      const range = { start: places.positionAt(this.document.offsetAt(own.start)),
                      end: places.positionAt(this.document.offsetAt(own.end)) };
      told.push({ range, text });
      this.update({ range: own, text }, version);
    }
    return told;
  }
}
