// Looks at pages: a picture at every size and theme, sideways scroll and axe's findings told.
//   node dev/shots.mjs [--base URL] [--out DIR] [--sizes phone,tablet] [--themes light,dark] [--no-axe] PATH...
// `--do "js"` runs in the page before the picture. Exit code 1 when something is wrong.
import { mkdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { chromium } from "playwright-core";

const wish = (name, usual) => (process.argv.includes(name) ? process.argv[process.argv.indexOf(name) + 1] : usual);
const named = new Set(["--base", "--out", "--sizes", "--themes", "--do", "--browser"]);
const paths = process.argv
  .slice(2)
  .filter((one, at, all) => !one.startsWith("--") && !named.has(all[at - 1] ?? ""));
const sizes = { small: [320, 640], phone: [390, 844], tablet: [768, 1024], wide: [1024, 768], desk: [1440, 900] };
const base = wish("--base", "http://127.0.0.1:8177");
const out = wish("--out", "shots");
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const chosen = wish("--sizes", Object.keys(sizes).join(",")).split(",");
const themes = wish("--themes", "light,dark").split(",");

mkdirSync(out, { recursive: true });
const browser = await chromium.launch({
  executablePath: wish("--browser", "/usr/bin/chromium"),
  args: ["--no-sandbox", "--disable-gpu"],
});
let wrong = 0;
const say = (where, what) => {
  wrong += 1;
  console.log(`${where}: ${what}`);
};

for (const path of paths.length > 0 ? paths : ["/"]) {
  for (const size of chosen) {
    for (const theme of themes) {
      const [width, height] = sizes[size];
      const where = `${path} ${size} ${theme}`;
      const context = await browser.newContext({
        viewport: { width, height },
        colorScheme: theme,
        bypassCSP: true,
        hasTouch: width < 1400,
        reducedMotion: "reduce",
        serviceWorkers: "block",
      });
      const page = await context.newPage();
      page.on("console", (message) => {
        if (message.type() === "error") say(where, message.text());
      });
      page.on("pageerror", (error) => say(where, String(error)));
      await page.goto(base + path);
      await page.waitForSelector("main > *");
      await page.waitForLoadState("networkidle").catch(() => undefined);
      await page.evaluate(() => document.fonts.ready);
      if (wish("--do", "")) await page.evaluate(wish("--do", ""));
      await page.waitForTimeout(150);
      const over = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      if (over > 0) say(where, `scrolls ${over} px sideways`);
      if (!process.argv.includes("--no-axe")) {
        await page.evaluate(axe);
        const found = await page.evaluate(() => globalThis.axe.run());
        for (const one of found.violations)
          say(
            where,
            `${one.id}: ${one.help}; ${one.nodes
              .map((node) => node.target.join(" "))
              .slice(0, 3)
              .join(" | ")}`,
          );
      }
      const name = `${path.replace(/^\//, "").replace(/\W+/g, "_") || "visits"}_${size}_${theme}.png`;
      await page.screenshot({ path: join(out, name), fullPage: true });
      await context.close();
    }
  }
}
await browser.close();
console.log(wrong === 0 ? "nothing wrong" : `${wrong} wrong`);
process.exit(wrong === 0 ? 0 : 1);
