import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import type { Plugin } from "vite";

/** Writes /sw.js: the worker with the names of this build's files, under a version that is their hash. */
export function offlineWorker(source: URL): Plugin {
  return {
    name: "offline-worker",
    apply: "build",
    enforce: "post",
    generateBundle(_, bundle) {
      const text = readFileSync(source, "utf8");
      const assets = Object.keys(bundle)
        .filter((name) => /^assets\/.*\.(js|css|woff2|svg|png)$/.test(name))
        .sort();
      const index = bundle["index.html"];
      const hash = createHash("sha256").update(text).update(assets.join("\n"));
      if (index && "source" in index) hash.update(index.source);
      const files = ["/", "/icon.svg", "/manifest.webmanifest", ...assets.map((name) => `/${name}`)];
      const filled = text
        .replace("@version@", `fallaway-${hash.digest("hex").slice(0, 12)}`)
        .replace("/*@files@*/ []", JSON.stringify(files));
      this.emitFile({ type: "asset", fileName: "sw.js", source: filled });
    },
  };
}
