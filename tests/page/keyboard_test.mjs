// A visit with the keyboard alone: from the list through the sheet to the verdict and back. After every press the focus
// is somewhere, it can be seen, and it never falls back to the bare page.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Served, openBrowser, openDevice, settle, until } from "./served.mjs";

const served = new Served();
let browser;
before(async () => {
  await served.start();
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  await served.end();
});

const inForce = async (visit, path) =>
  (await served.get(`/api/visits/${visit}`)).entries.filter((entry) => entry.path === path).map((entry) => entry.value);

// Where the focus is: in words, and what is wrong with it, "" when nothing is. Runs in the page.
function lookAtFocus() {
  const at = document.activeElement;
  const says = at.getAttribute("aria-label") ?? at.labels?.[0]?.textContent ?? at.textContent;
  const name = `${at.tagName.toLowerCase()} "${says.trim().slice(0, 60)}"`;
  if (at === document.body) return { name, wrong: "on the bare page" };
  const drawn = (element) => {
    if (!element) return false;
    const style = getComputedStyle(element);
    const outlined = style.outlineStyle !== "none" && parseFloat(style.outlineWidth) > 0;
    return outlined || style.boxShadow !== "none";
  };
  // A field draws it round its box, a choice round the words beside its button, the sheet at the place typed into.
  const shown =
    drawn(at) || drawn(at.closest(".box, .file-button")) || drawn(at.matches("input") ? at.nextElementSibling : null) ||
    (at.id === "checkpoint-title" && drawn(document.querySelector(".figure-active")));
  if (!shown) return { name, wrong: "not drawn" };
  const { top, bottom, left, right } = at.getBoundingClientRect();
  const inside = bottom > 0 && top < innerHeight && right > 0 && left < innerWidth;
  return { name, wrong: inside ? "" : "out of sight" };
}
const focus = (page) => page.evaluate(lookAtFocus);

// One for what a key does, one for where the focus goes then.
const twoFrames = (page) =>
  page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));

async function press(page, key) {
  await page.keyboard.press(key);
  await twoFrames(page);
  const at = await focus(page);
  assert.equal(at.wrong, "", `after ${key}: ${at.name} is ${at.wrong}`);
  return at.name;
}

async function tabTo(page, name, key = "Tab") {
  const seen = [];
  for (let presses = 0; presses < 150; ++presses) {
    seen.push(await press(page, key));
    if (seen.at(-1).includes(name)) return;
  }
  assert.fail(`no way to ${name} by ${key}: ${[...new Set(seen)].join(", ")}`);
}

const type = async (page, text) => {
  for (const key of text) await press(page, key === " " ? "Space" : key === "\n" ? "Enter" : key);
};
const title = (page) => page.textContent(".checkpoint h2");

test("a visit from the list to the verdict and back", async () => {
  const page = await openDevice(browser, "wide");
  await page.goto(served.url);
  await page.waitForSelector(".visit-row");

  // The sheet for a new visit opens, Escape closes it, and the focus is back where it came from.
  await tabTo(page, "New visit");
  await press(page, "Enter");
  assert.match((await focus(page)).name, /h2 "New visit"/);
  await press(page, "Escape");
  assert.match((await focus(page)).name, /button "New visit"/);
  await press(page, "Enter");
  await tabTo(page, "Electric guitar");
  await page.keyboard.press("Enter");
  await page.waitForURL(/\/visits\/[0-9a-f]{16}/);
  await page.waitForSelector(".checkpoint h2");
  const visit = page.url().match(/visits\/([0-9a-f]{16})/)[1];
  assert.equal((await focus(page)).wrong, "");

  // Through the sheet: the arrow keys pass from checkpoint to checkpoint, each with its own heading.
  const first = await title(page);
  const passed = new Set([first]);
  for (let step = 0; step < 13; ++step) {
    await press(page, "ArrowRight");
    passed.add(await title(page));
  }
  assert.equal(passed.size, 14, [...passed].join(", "));
  for (let step = 0; step < 13; ++step) await press(page, "ArrowLeft");
  assert.equal(await title(page), first);

  // Six heights in a row.
  await type(page, "h1.7 1.7 1.6 1.6 1.5 1.5\n");
  const heights = await until("six heights", async () => {
    const found = (await inForce(visit, "/readings")).filter((one) => one.what === "string height");
    return found.length === 6 && found;
  });
  const stringsOf = (value) => heights.filter((one) => one.value === value).map((one) => one.at.string).sort();
  assert.deepEqual([stringsOf("1.7 mm"), stringsOf("1.6 mm"), stringsOf("1.5 mm")], [[5, 6], [3, 4], [1, 2]]);

  // A judged checkpoint, found by its name, rated on its buttons: the arrow keys pass over them, Enter says one.
  await press(page, "f");
  await type(page, "tuners");
  await page.keyboard.press("Enter");
  await until("the tuners", async () => /tuner/i.test(await title(page)));
  await press(page, "Tab");
  const anchors = await page.locator(".rating-step b").allTextContents();
  await tabTo(page, anchors[0]);
  await press(page, "ArrowDown");
  assert.ok((await focus(page)).name.includes(anchors[1]), "the second step");
  await press(page, "Enter");
  const [rating] = await until("a rating", async () => {
    const found = await inForce(visit, "/ratings");
    return found.length === 1 && found;
  });
  assert.deepEqual([rating.checkpoint, rating.step], ["tuners", anchors.length - 2]);

  // Undo, and put it back by the button that offers it.
  await press(page, "u");
  await until("no rating", async () => (await inForce(visit, "/ratings")).length === 0);
  await tabTo(page, "Put it back", "Shift+Tab");
  await press(page, "Enter");
  await until("the rating again", async () => (await inForce(visit, "/ratings"))[0]?.step === rating.step);

  // The verdict, and back to the list.
  await page.keyboard.press("v");
  await page.waitForURL(/verdict$/);
  await page.waitForSelector(".verdict-word");
  assert.equal((await focus(page)).wrong, "");
  await tabTo(page, "All visits");
  await page.keyboard.press("Enter");
  await page.waitForSelector(".visit-row");
  assert.equal((await focus(page)).wrong, "");
  await tabTo(page, "Search");
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

test("whatever opens closes by Escape, and the focus comes back", async () => {
  const page = await openDevice(browser, "wide");
  const { visits } = await served.get("/api/visits");
  const heron = visits.find((one) => one.title === "Ostrel Heron");
  await page.goto(`${served.url}/visits/${heron.id}/action-12`);
  await page.waitForSelector(".checkpoint .figure");
  await press(page, "h");
  for (const key of ["?", "m", "w", "p"]) {
    await press(page, key);
    assert.equal(await page.locator(".panel").count(), 1, `${key} opens something`);
    await press(page, "Tab");
    // From a field the first Esc leads out of the field, so that nothing typed is lost by it.
    for (let nth = 0; nth < 2 && (await page.locator(".panel").count()) > 0; ++nth) await press(page, "Escape");
    assert.equal(await page.locator(".panel").count(), 0, `Escape closes ${key}`);
    assert.match((await focus(page)).name, /h2/);
  }
  // From a button back to that button; the tools are passed with the arrow keys, and Enter takes the one reached.
  await tabTo(page, "Tool:");
  await press(page, "Enter");
  await tabTo(page, "input");
  const kinds = page.locator(".panel input[type=radio]");
  for (let step = 0; step < 2; ++step) await press(page, "ArrowDown");
  const picked = await kinds.evaluateAll((all) => all.findIndex((one) => one.checked));
  assert.ok(picked >= 2, "the arrow keys reach further tools");
  await press(page, "Enter");
  assert.match((await focus(page)).name, /^button "Tool:/);

  // A refused figure is kept, and Tab goes on to what can be done about it.
  await type(page, "17 17 17 17 17 17 17");
  await press(page, "Enter");
  await page.waitForSelector(".error-line");
  await tabTo(page, "Leave it out", "Shift+Tab");
  await press(page, "Enter");
  assert.equal(await page.locator(".error-line").count(), 0);
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

test("Tab leads through every view and out again", async () => {
  const { visits } = await served.get("/api/visits");
  const heron = visits.find((one) => one.title === "Ostrel Heron");
  const sheet = `/visits/${heron.id}`;
  const rounds = [
    ["wide", [`${sheet}/action-12`]],
    ["small", ["/", `${sheet}/action-12`, `${sheet}/tuners`, `${sheet}/ring-test`, `${sheet}/verdict`]],
    ["tablet", [`/dossiers/${heron.dossier}`, "/sums/fret-places", "/shop"]],
  ];
  for (const [size, paths] of rounds) {
    const page = await openDevice(browser, size);
    // Each stop is looked at in the page, a frame after the focus came.
    await page.addInitScript(`window.stops = [];
      const look = ${lookAtFocus};
      const skip = () => document.activeElement.className === "skip";
      addEventListener("focusin", () => {
        const first = skip(); // told now: by the next frame a quick Tab has gone on
        requestAnimationFrame(() => stops.push({ ...look(), skip: first }));
      });`);
    for (const path of paths) {
      await page.goto(served.url + path);
      await settle(page);
      await page.waitForLoadState("networkidle");
      // Past the last stop comes the browser's own bar, which a page cannot see, and then the first one again.
      let stops = [];
      for (let presses = 0; stops.filter((one) => one.skip).length < 2; presses += 10) {
        const last = stops.slice(-8).map((one) => one.name).join(", ");
        assert.ok(presses < 500, `${path}, ${size}: no way out after ${last}`);
        for (let nth = 0; nth < 10; ++nth) await page.keyboard.press("Tab");
        await twoFrames(page);
        stops = await page.evaluate(() => window.stops);
      }
      const wrong = stops.filter((one) => one.wrong !== "" && one.wrong !== "on the bare page");
      assert.deepEqual(wrong.map((one) => `${path}, ${size}: ${one.name} ${one.wrong}`), []);
      assert.ok(stops.length > 6, `${path}, ${size}: only ${stops.map((one) => one.name).join(", ")}`);
    }
    await page.context().close();
  }
});
