// Draws the icon's pictures from public/icon.svg, for devices that take no SVG. Run after the drawing changes.
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

const publicFolder = join(dirname(fileURLToPath(import.meta.url)), "..", "public");
const svg = readFileSync(join(publicFolder, "icon.svg"), "utf8");
const browser = await chromium.launch({
  executablePath: "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu"],
});
for (const side of [180, 192, 512]) {
  const page = await browser.newPage({ viewport: { width: side, height: side } });
  await page.setContent(`<style>body{margin:0}svg{display:block;width:${side}px;height:${side}px}</style>${svg}`);
  await page.screenshot({ path: join(publicFolder, `icon-${side}.png`) });
}
await browser.close();
