// Every view at three widths and in both themes: axe finds nothing, nothing scrolls sideways, nothing fails. And what
// goes on paper: the answer, light whatever the theme, without anything to press.
import assert from "node:assert/strict";
import { after, before, describe, it, test } from "node:test";
import { Served, look, openBrowser, openDevice, settle } from "./served.mjs";

const served = new Served();
let browser;
let heron;
before(async () => {
  await served.start();
  browser = await openBrowser();
  const { visits } = await served.get("/api/visits");
  heron = visits.find((one) => one.title === "Ostrel Heron");
});
after(async () => {
  await browser?.close();
  await served.end();
});

// Where each is, and what stands there once all of it has come.
const views = {
  visits: [() => "/", ".visit-row"],
  heights: [() => `/visits/${heron.id}/action-12`, ".checkpoint .figure"],
  rating: [() => `/visits/${heron.id}/tuners`, ".rating-step"],
  notes: [() => `/visits/${heron.id}/ring-test`, ".ring-map"],
  nut: [() => `/visits/${heron.id}/nut-height`, ".checkpoint .figure"],
  verdict: [() => `/visits/${heron.id}/verdict`, ".verdict-foot"],
  past: [() => `/dossiers/${heron.dossier}`, ".dossier-table td"],
  sums: [() => "/sums", ".sheet-page a[href^='/sums/']"],
  sum: [() => "/sums/fret-places", ".sheet-page input"],
  shop: [() => "/shop", "#backup-head"],
};

async function open(page, name) {
  const [path, there] = views[name];
  await page.goto(served.url + path());
  await settle(page);
  await page.waitForSelector(there, { state: "attached" });
}

// Side by side: each has a browser process of its own to work in.
describe("every view", { concurrency: true }, () => {
  for (const size of ["small", "tablet", "desk"]) it(size, () => everyView(size));
});

async function everyView(size) {
  const page = await openDevice(browser, size);
  const found = [];
  for (const name of Object.keys(views)) {
    await page.emulateMedia({ colorScheme: "light" });
    await open(page, name);
    found.push(...(await look(page, `${name}-${size}-light`)));
    // The theme changes nothing but colours, so of the rules only theirs are asked again.
    await page.emulateMedia({ colorScheme: "dark" });
    found.push(...(await look(page, `${name}-${size}-dark`, ["color-contrast"])));
  }
  await page.context().close();
  assert.deepEqual(found, []);
}

// Share of an image that is nearly white, counted by a page of its own, since a page may not look at itself.
async function shareOfWhite(png) {
  const page = await browser.newPage();
  const share = await page.evaluate(async (url) => {
    const image = await createImageBitmap(await (await fetch(url)).blob());
    const pen = new OffscreenCanvas(image.width, image.height).getContext("2d");
    pen.drawImage(image, 0, 0);
    const { data } = pen.getImageData(0, 0, image.width, image.height);
    let white = 0;
    for (let at = 0; at < data.length; at += 4) if (Math.min(data[at], data[at + 1], data[at + 2]) > 240) white += 1;
    return (4 * white) / data.length;
  }, `data:image/png;base64,${png.toString("base64")}`);
  await page.close();
  return share;
}

test("the verdict on paper", async () => {
  const page = await openDevice(browser, "wide", "dark");
  const { assessment } = await served.get(`/api/visits/${heron.id}`);
  await open(page, "verdict");
  const unfolded = page.locator(".verdict-page details[open]");
  assert.equal(await unfolded.count(), 0);
  const paper = (await page.pdf({ format: "A4", preferCSSPageSize: true })).toString("latin1");
  assert.ok((await unfolded.count()) > 0, "what is folded is opened for paper");
  const sheets = paper.match(/\/Type\s*\/Page\b/g).length;
  assert.ok(sheets >= 2 && sheets <= 6, `${sheets} sheets of A4 for ${assessment.findings.length} findings`);

  await page.emulateMedia({ media: "print", colorScheme: "dark" });
  await page.setViewportSize({ width: 703, height: 1032 }); // A4 between its margins, in px of 1/96 in
  const seen = (await page.locator(".verdict-page").innerText()).replaceAll("\u2212", "-");
  assert.ok(seen.toLowerCase().includes(assessment.verdict), "the verdict");
  for (const reason of assessment.reasons) assert.ok(seen.includes(reason), reason);
  for (const { found, remedy } of assessment.findings) {
    assert.ok(seen.includes(found.words ?? found.text), `${found.words ?? found.text} is on paper`);
    assert.ok(seen.includes(remedy), remedy);
  }
  const pressed = ["button", "input", "textarea", "nav", "summary", ".button"].map((one) => `${one}:visible`);
  assert.deepEqual(await page.locator(pressed.join(", ")).allTextContents(), []);
  assert.equal(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), 0);
  const white = await shareOfWhite(await page.screenshot({ fullPage: true }));
  assert.ok(white > 0.85, `${(100 * white).toFixed(0)} of 100 parts are white`);
  await page.context().close();
});
