// Takes a package apart, and says what is in it: unpack.cjs PACKAGE FOLDER.
"use strict";
const fs = require("node:fs");
const path = require("node:path");
const { createRequire } = require("node:module");
const yauzl = createRequire(process.cwd() + "/")("yauzl"); // by which packages are made, too

const [file, folder] = process.argv.slice(2);
yauzl.open(file, { lazyEntries: true }, (error, zip) => {
  if (error) throw error;
  zip.on("entry", (entry) => {
    console.log(entry.fileName);
    zip.openReadStream(entry, (failed, stream) => {
      if (failed) throw failed;
      const to = path.join(folder, entry.fileName); // yauzl refuses names that lead out of it
      fs.mkdirSync(path.dirname(to), { recursive: true });
      stream.pipe(fs.createWriteStream(to)).on("close", () => zip.readEntry());
    });
  });
  zip.readEntry();
});
