// Figures typed on the sheet stand where they were typed and nowhere else: repeats, finished rows, halves of a rule, what
// the shop refuses, a phone whose keys are all to be touched, and the way back.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Served, openBrowser, openDevice, settle, until } from "./served.mjs";

const served = new Served();
let browser;
let page;
before(async () => {
  await served.start();
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  await served.end();
});

async function openVisit(checkpoint, size = "wide") {
  page = await openDevice(browser, size);
  const id = [...crypto.getRandomValues(new Uint8Array(8))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  const answer = await fetch(`${served.url}/api/visits`, {
    method: "POST",
    headers: { "Content-Type": "application/json", "X-Device": "00000000000000ee", Origin: served.url },
    body: JSON.stringify({ id, kind: "electric guitar" }),
  });
  assert.ok(answer.ok, await answer.clone().text());
  await page.goto(`${served.url}/visits/${id}/${checkpoint}`);
  await page.waitForSelector(".checkpoint h2");
  return id;
}

const press = async (text) => {
  for (const key of text) await page.keyboard.press(key === " " ? "Space" : key === "\n" ? "Enter" : key);
};
const readings = async (visit) =>
  (await served.get(`/api/visits/${visit}`)).entries
    .filter((entry) => entry.path === "/readings")
    .map(({ value }) => ({ what: value.what, string: value.at?.string, says: value.value ?? value.repeats }));
const title = () => page.textContent(".checkpoint h2");
const onHeights = async () => assert.match(await title(), /String height/);

async function done() {
  assert.deepEqual(page.faults, []);
  await page.context().close();
}

test("repeating goes on at its place until it is switched off", async () => {
  const visit = await openVisit("action-12");
  await press("2.0\n");
  await page.locator("#place-0").click();
  await press("r2.1\n2.0\n1.95\n");
  const kept = await until("four readings of one place", async () => {
    const found = await readings(visit);
    return found[0]?.says.length === 4 && found;
  });
  assert.deepEqual(kept, [{ what: "string height", string: 6, says: ["2.0 mm", "2.1 mm", "2.0 mm", "1.95 mm"] }]);
  await page.waitForSelector(".typed-row >> text=4 readings, mean 2.01");
  // Off again: a re-read takes the place of all of them, and no earlier figure comes back.
  await press("r2.05\n");
  await until("one figure", async () => (await readings(visit))[0]?.says === "2.05 mm");
  await page.locator("#place-0").click();
  await press("2.15\n");
  await until("the last of them alone", async () => {
    const found = await readings(visit);
    return found.length === 1 && found[0].says === "2.15 mm";
  });
  await done();
});

test("a finished row stays, and what is typed then is no other checkpoint's", async () => {
  const visit = await openVisit("action-12");
  await press("1.7 1.7 1.6 1.6 1.5\n1.5\n");
  await page.waitForSelector(".leads-on");
  await onHeights();
  await page.waitForSelector(".figure-beside >> text=/ to /"); // the limits
  await press("3");
  await onHeights();
  await page.keyboard.press("Escape");
  await page.locator("#place-2").click();
  await press("1.65\n");
  await page.waitForSelector(".decision >> text=Was 1.6.");
  await onHeights();
  await until("the correction", async () => (await readings(visit)).some((one) => one.string === 4 && one.says === "1.65 mm"));
  await press("\n");
  await until("the next checkpoint", async () => !/String height/.test(await title()));
  const { entries } = await served.get(`/api/visits/${visit}`);
  assert.deepEqual(entries.filter((entry) => entry.path === "/ratings"), []);
  assert.equal((await readings(visit)).length, 6);
  await done();
});

test("on a phone nothing lies over a key or an answer", async () => {
  await openVisit("action-12", "small");
  const covered = (selector) =>
    page.locator(selector).evaluateAll((all) =>
      all.flatMap((one) => {
        one.scrollIntoView({ block: "nearest" });
        const { left, top, right, bottom, width, height } = one.getBoundingClientRect();
        const free = [top + 2, bottom - 2].every((y) => one.contains(document.elementFromPoint((left + right) / 2, y)));
        return free && Math.min(width, height) >= 44 ? [] : [`${one.textContent}: ${width} by ${height} px, free: ${free}`];
      }),
    );
  assert.deepEqual(await covered(".pad .key:not(:disabled)"), []);
  await page.goto(page.url().replace("action-12", "ring-test"));
  await page.waitForSelector(".checkpoint h2");
  await page.getByRole("gridcell").nth(8).click();
  await page.waitForSelector(".tap-word");
  assert.deepEqual(await covered(".tap-word"), []);
  await done();
});

test("four and a half sixty-fourths are one reading of one string", async () => {
  const visit = await openVisit("action-12");
  await page.getByRole("button", { name: "64ths" }).click();
  await press("5 4 1/2\n");
  const kept = await until("two strings", async () => {
    const found = await readings(visit);
    return found.length === 2 && found;
  });
  assert.deepEqual(kept.map((one) => [one.string, one.says]), [[6, "5/64 in"], [5, "9/128 in"]]);
  for (const key of ["4", "½"]) await page.locator(`.pad button:text-is("${key}")`).click();
  await page.locator(".pad .next").click();
  await until("the one tapped", async () => (await readings(visit)).some((one) => one.string === 4 && one.says === "9/128 in"));
  await done();
});

test("a figure the shop refuses stands in its field again, and the sheet stays", async () => {
  const visit = await openVisit("action-12");
  await press("1.7 1.7 1.6 1.6 1.5 1.5\n");
  await until("six heights", async () => (await readings(visit)).length === 6);
  await page.locator("#place-0").click();
  await press("18\n");
  await page.waitForSelector(".error-line >> text=/not plausible for string height.*-1 to 12 mm/");
  await onHeights();
  assert.equal((await page.textContent(".typed-figures")).trim(), "18");
  assert.equal((await readings(visit)).find((one) => one.string === 6).says, "1.7 mm");
  await page.keyboard.press("Backspace");
  await press(".8\n");
  await until("the mended one", async () => (await readings(visit)).some((one) => one.string === 6 && one.says === "1.8 mm"));
  assert.equal(await page.locator(".error-line").count(), 0);
  await done();
});

test("back leads from a panel to the sheet, from the sheet to the list, and reopening to where it was left", async () => {
  page = await openDevice(browser, "tablet");
  await page.goto(served.url);
  await settle(page);
  await page.getByRole("button", { name: "New visit" }).click();
  await page.getByRole("button", { name: "Electric guitar" }).click();
  await page.waitForURL(/\/visits\/[0-9a-f]{16}/);
  await page.waitForSelector(".checkpoint h2");
  const [, visit] = page.url().match(/visits\/([0-9a-f]{16})/);
  await press("nh");
  await press("m");
  await page.waitForSelector(".panel");
  await page.goBack();
  await page.waitForSelector(".checkpoint h2");
  await onHeights();
  await press("1.");
  await page.reload();
  await page.waitForSelector(".typed-figures >> text=1.");
  await page.keyboard.press("Escape");
  await page.goBack();
  await page.waitForSelector(".visit-row");
  await page.goto(`${served.url}/visits/${visit}`);
  await page.waitForSelector(".checkpoint h2");
  await onHeights();
  await done();
});
