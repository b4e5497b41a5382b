import { defineConfig } from "vitest/config";
import { offlineWorker } from "./dev/offline_plugin";

const server = process.env["FALLAWAY_SERVER"] ?? "http://127.0.0.1:8177";
// What changes something needs an Origin of the server's own.
const proxied = { target: server, ws: true, headers: { origin: server }, changeOrigin: true };

// The page is served from inside the binary: hashed names, nothing inlined (the content policy allows no data: fonts
// and no inline script), one folder for what may be cached for ever.
export default defineConfig({
  base: "/",
  plugins: [offlineWorker(new URL("src/offline/worker.js", import.meta.url))],
  esbuild: { jsx: "automatic", jsxImportSource: "preact" },
  build: {
    target: "es2022",
    outDir: "dist",
    assetsDir: "assets",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
    manifest: true,
  },
  optimizeDeps: {
    include: ["preact", "preact/hooks", "preact/jsx-runtime", "preact/jsx-dev-runtime", "@preact/signals"],
  },
  server: {
    host: "127.0.0.1",
    proxy: { "/api": proxied, "/media": proxied },
  },
  test: { include: ["tests/**/*_test.ts", "tests/**/*_test.tsx"], environment: "node" },
});
