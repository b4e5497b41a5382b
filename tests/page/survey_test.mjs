// The survey of the neck in a real browser: reached from the sheet, walked by arrow keys, its figures those of the API;
// a reading that another device takes changes the line.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Served, look, openBrowser, openDevice, settle, until } from "./served.mjs";

const served = new Served();
let browser;
let heron;
before(async () => {
  await served.start();
  browser = await openBrowser();
  const { visits } = await served.get("/api/visits");
  heron = visits.find((one) => one.title === "Ostrel Heron").id;
});
after(async () => {
  await browser?.close();
  await served.end();
});

const surveyOf = async (visit) => (await served.get(`/api/visits/${visit}`)).assessment.neck;

async function post(path, body) {
  const answer = await fetch(served.url + path, {
    method: "POST",
    headers: { "Content-Type": "application/json", "X-Device": "00000000000000ee", Origin: served.url },
    body: JSON.stringify(body),
  });
  assert.ok(answer.ok, await answer.clone().text());
}

const newId = () => [...crypto.getRandomValues(new Uint8Array(8))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
const where = (page) => page.textContent("#survey-here");

test("from the sheet by a key, along frets and strings by arrows, and the section has the API's figures", async () => {
  const page = await openDevice(browser, "desk");
  await page.goto(`${served.url}/visits/${heron}/action-12`);
  await page.waitForSelector(".checkpoint h2");
  await page.keyboard.press("s");
  await page.waitForURL(/\/neck$/);
  await page.waitForSelector(".survey-plan svg");
  const survey = await surveyOf(heron);
  const rooms = survey.strings.map((one) => one.least.value);
  const least = survey.strings[rooms.indexOf(Math.min(...rooms))];
  const start = Math.max(1, least.least_held);
  assert.equal(await where(page), `String ${least.string}, fret ${start}`, "it begins where there is least room");

  let fret = start;
  let string = least.string;
  for (const [key, along, across] of [["ArrowLeft", -1, 0], ["ArrowLeft", -1, 0], ["ArrowDown", 0, 1], ["ArrowRight", 1, 0]]) {
    await page.keyboard.press(key);
    fret = Math.min(Math.max(1, fret + along), survey.crowns.length);
    string = Math.min(string + across, survey.strings.length);
    await until(`string ${string}, fret ${fret}`, async () => (await where(page)) === `String ${string}, fret ${fret}`);
  }
  const shown = await page.locator(".survey-section .survey-room").allTextContents();
  assert.deepEqual(shown, survey.strings.map((one) => one.open_mm[fret - 1].toFixed(2)));
  const told = await page.textContent(".survey-told");
  assert.ok(told.includes(`${survey.strings[string - 1].next_fret_mm[fret].toFixed(2)} ±`), told);
  assert.ok(told.includes(`over fret ${fret + 1}`), told);

  await page.locator(".survey-plan svg").click({ position: { x: 60, y: 60 } });
  await until("the head's end touched", async () => (await where(page)) === "String 1, fret 1");
  await page.keyboard.press("Escape");
  await page.waitForSelector(".checkpoint h2");
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

test("a reading taken on another device changes the line", async () => {
  const visit = newId();
  await post("/api/visits", { id: visit, kind: "electric guitar" });
  const page = await openDevice(browser, "tablet");
  await page.goto(`${served.url}/visits/${visit}/neck`);
  await page.waitForSelector("text=Nothing of this neck was read yet.");
  const before = await surveyOf(visit);
  assert.equal(before.readings, 0);
  assert.deepEqual([...before.assumed].sort(), ["fallaway", "relief"]);
  for (const figure of await page.locator(".survey-section .survey-room").allTextContents())
    assert.match(figure, /^\[\d\.\d\d\]$/, "assumed figures stand in brackets");
  assert.equal(await page.locator(".survey-next li").count(), 3);

  const reading = { id: newId(), path: "/readings", saw: 0, value: { what: "relief", value: "0.31 mm" } };
  await post(`/api/visits/${visit}/entries`, { entries: [reading] });
  await page.waitForSelector(".survey-change >> text=/Relief: 0.31 mm: /");
  const line = await page.textContent(".survey-change");
  const after = await surveyOf(visit);
  assert.equal(after.readings, 1);
  assert.ok(line.includes(`relief ${after.relief.value.toFixed(2)}, was ${before.relief.value.toFixed(2)}`), line);
  assert.equal(await page.locator("text=Nothing of this neck was read yet.").count(), 0);

  // What to read next opens where it is read, at its place.
  await page.locator(".survey-read").first().click();
  await page.waitForSelector(".checkpoint .figure-active");
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

test("at three sizes, both themes and on paper", async () => {
  const found = [];
  for (const size of ["small", "tablet", "desk"]) {
    for (const theme of ["light", "dark"]) {
      const page = await openDevice(browser, size, theme);
      await page.goto(`${served.url}/visits/${heron}/neck`);
      await settle(page);
      await page.waitForSelector(".survey-measure svg");
      found.push(...(await look(page, `survey-${size}-${theme}`, theme === "dark" ? ["color-contrast"] : undefined)));
      if (size === "desk") {
        await page.emulateMedia({ media: "print", colorScheme: theme });
        await page.setViewportSize({ width: 703, height: 1032 }); // A4 between its margins, in px of 1/96 in
        const pressed = await page.locator("button:visible, nav:visible, a.button:visible").allTextContents();
        if (pressed.length > 0) found.push(`on paper: ${pressed.join(", ")}`);
        const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        if (over > 0) found.push(`paper is ${over} px too narrow`);
      }
      await page.context().close();
    }
  }
  assert.deepEqual(found, []);
});
