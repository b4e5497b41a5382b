// Every view at three widths and in both themes: axe finds nothing, nothing scrolls sideways, nothing fails.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
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

const views = {
  visits: () => "/",
  heights: () => `/visits/${heron.id}/action-12`,
  rating: () => `/visits/${heron.id}/tuners`,
  notes: () => `/visits/${heron.id}/ring-test`,
  nut: () => `/visits/${heron.id}/nut-height`,
  verdict: () => `/visits/${heron.id}/verdict`,
  past: () => `/dossiers/${heron.dossier}`,
  sums: () => "/sums",
  sum: () => "/sums/fret-places",
  shop: () => "/shop",
};

for (const size of ["small", "tablet", "desk"]) {
  for (const theme of ["light", "dark"]) {
    test(`${size}, ${theme}`, async () => {
      const page = await openDevice(browser, size, theme);
      const found = [];
      for (const [name, path] of Object.entries(views)) {
        await page.goto(served.url + path());
        await settle(page);
        await page.waitForLoadState("networkidle");
        found.push(...(await look(page, `${name}-${size}-${theme}`)));
      }
      await page.context().close();
      assert.deepEqual(found, []);
    });
  }
}
