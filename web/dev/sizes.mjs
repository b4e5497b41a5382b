// What the first load weighs, gzipped, fonts included: the shell with all it imports at once, and the page that opens.
// The list of parts that Vite wrote for this goes away again: it is no part of the page.
import { gzipSync } from "node:zlib";
import { readFileSync, readdirSync, rmSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const limitBytes = 150_000;
const dist = process.argv[2] ?? join(dirname(fileURLToPath(import.meta.url)), "..", "dist");
const weigh = (name) => {
  const bytes = readFileSync(join(dist, name));
  return name.endsWith(".woff2") ? bytes.length : gzipSync(bytes, { level: 9 }).length;
};
const manifest = JSON.parse(readFileSync(join(dist, ".vite/manifest.json"), "utf8"));

function filesOf(key, seen = new Set()) {
  const chunk = manifest[key];
  if (!chunk || seen.has(chunk.file)) return seen;
  seen.add(chunk.file);
  for (const file of chunk.css ?? []) seen.add(file);
  for (const one of chunk.imports ?? []) filesOf(one, seen);
  return seen;
}

const fonts = readdirSync(join(dist, "assets"))
  .filter((name) => /latin-[56]00.*\.woff2$/.test(name))
  .map((name) => `assets/${name}`);
const shell = ["index.html", ...filesOf("index.html"), ...fonts];
let worst = 0;
for (const page of Object.keys(manifest).filter((key) => /^src\/\w+\/page\.tsx$/.test(key))) {
  const total = [...new Set([...shell, ...filesOf(page)])].reduce((sum, name) => sum + weigh(name), 0);
  worst = Math.max(worst, total);
  console.log(
    `${page.replace(/^src\/|\/page\.tsx$/g, "").padEnd(10)} first load ${(total / 1000).toFixed(1).padStart(6)} kB`,
  );
}
const all = readdirSync(join(dist, "assets")).reduce((sum, name) => sum + weigh(`assets/${name}`), 0);
console.log(`fonts      ${(fonts.reduce((sum, name) => sum + weigh(name), 0) / 1000).toFixed(1).padStart(16)} kB`);
console.log(`everything ${(all / 1000).toFixed(1).padStart(16)} kB`);
rmSync(join(dist, ".vite"), { recursive: true });
if (worst > limitBytes) {
  console.error(`A first load is over ${limitBytes / 1000} kB.`);
  process.exit(1);
}
