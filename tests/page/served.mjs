// A real `fallaway serve` on a folder of its own and a real browser, for the tests of the page.
// The binary's path is the environment variable FALLAWAY. With FALLAWAY_PICTURES=docs/pictures those of the README are
// taken anew.
import { spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";

const require = createRequire(new URL("../../web/package.json", import.meta.url));
const { chromium } = require("playwright-core");
const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
const pictures = process.env.FALLAWAY_PICTURES;

export const sizes = { small: [320, 640], tablet: [768, 1024], wide: [1024, 768], desk: [1440, 900] };

export class Served {
  folder = mkdtempSync(join(tmpdir(), "fallaway-page-"));
  port = 0;

  // Starts, or starts again on the same port after a kill.
  async start() {
    this.process = spawn(
      process.env.FALLAWAY,
      ["serve", "--demo", "--json", "--shop", join(this.folder, "shop"), "--port", String(this.port)],
      { stdio: ["ignore", "pipe", "inherit"] },
    );
    this.ended = new Promise((resolve) => this.process.once("exit", resolve));
    const line = await new Promise((resolve, reject) => {
      let said = "";
      this.process.stdout.on("data", (bytes) => {
        said += bytes;
        if (said.includes("\n")) resolve(said.slice(0, said.indexOf("\n")));
      });
      this.process.once("exit", (code) => reject(new Error(`serve ended with ${code}`)));
    });
    this.url = JSON.parse(line).address.replace(/\/$/, "");
    this.port = Number(new URL(this.url).port);
    return this;
  }

  async kill(signal = "SIGKILL") {
    this.process.kill(signal);
    await this.ended;
  }

  async end() {
    await this.kill("SIGTERM");
    rmSync(this.folder, { recursive: true, force: true });
  }

  async get(path) {
    const answer = await fetch(this.url + path, { headers: { "X-Device": "00000000000000ee" } });
    if (!answer.ok) throw new Error(`${path}: ${answer.status} ${await answer.text()}`);
    return answer.json();
  }
}

export const openBrowser = () =>
  chromium.launch({
    executablePath: "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run"],
  });

// A device: a context of its own, with its own memory. Faults of the page end the test.
export async function openDevice(browser, size, theme = "light") {
  const [width, height] = sizes[size];
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: theme,
    reducedMotion: "reduce",
    bypassCSP: false,
    serviceWorkers: "block",
  });
  const page = await context.newPage();
  page.faults = [];
  page.on("pageerror", (error) => page.faults.push(String(error)));
  return page;
}

export async function settle(page) {
  await page.waitForSelector("main > *");
  await page.evaluate(() => document.fonts.ready);
}

// Views that are kept as pictures, and under which name.
const shown = {
  "visits-desk-light": "visits",
  "heights-tablet-light": "heights",
  "verdict-desk-dark": "verdict",
  "notes-small-light": "phone",
};

async function keepPicture(page, name) {
  if (!pictures || !shown[name]) return;
  mkdirSync(pictures, { recursive: true });
  // A page that ends above the foot of the window is cut there.
  const [width, height] = await page.evaluate(() => {
    const end = document.querySelector(".visits-list")?.getBoundingClientRect().bottom ?? innerHeight;
    return [innerWidth, Math.ceil(Math.min(innerHeight, end + 16))];
  });
  const clip = { x: 0, y: 0, width, height };
  await page.screenshot({ path: join(pictures, `${shown[name]}.png`), clip });
}

// What axe finds, by all its rules or some, and whether the page scrolls sideways; a list of sentences, empty when all
// is well.
export async function look(page, name, rules) {
  const found = page.faults.splice(0);
  const over = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  if (over > 0) found.push(`scrolls ${over} px sideways`);
  // The page forbids scripts but its own; axe comes in over the debugger, as an isolated evaluation.
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(axe);
  const asked = { resultTypes: ["violations"], ...(rules ? { runOnly: { type: "rule", values: rules } } : {}) };
  const { violations } = await page.evaluate((options) => window.axe.run(document, options), asked);
  for (const one of violations) found.push(`axe ${one.id}: ${one.nodes.map((node) => node.target).join(" | ")}`);
  await keepPicture(page, name);
  return found.map((what) => `${name}: ${what}`);
}

// Waits until the condition holds; the browser and the server decide how long that takes.
export async function until(says, condition, patience_ms = 30_000) {
  const end = Date.now() + patience_ms;
  for (;;) {
    const value = await condition();
    if (value) return value;
    if (Date.now() > end) throw new Error(`never came true: ${says}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}
