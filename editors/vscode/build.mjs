// Puts all that the extension needs into dist/: its code as one file, and the grammar, which is that
// of editors/textmate.
import { build } from "esbuild";
import fs from "node:fs";

fs.rmSync("dist", { recursive: true, force: true });
await build({
  entryPoints: ["src/extension.ts"],
  outfile: "dist/extension.js",
  bundle: true,
  platform: "node",
  format: "cjs",
  target: "node20",
  external: ["vscode"],
  minify: true,
  legalComments: "eof",
});
fs.copyFileSync("../textmate/norma.tmLanguage.json", "dist/norma.tmLanguage.json");
