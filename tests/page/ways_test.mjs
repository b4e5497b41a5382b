// What a walk round the shop needs: a way back from everywhere, complaints that keep their endings and their frets, an
// instrument with another number of strings, work that the hands rule forbids, and a closed visit that takes nothing.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Served, openBrowser, openDevice, until } from "./served.mjs";

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

const view = (visit) => served.get(`/api/visits/${visit}`);
const inForce = async (visit, path) =>
  (await view(visit)).entries.filter((entry) => entry.path === path).map((entry) => entry.value);

async function openVisit(kind = "electric guitar", size = "wide") {
  const id = [...crypto.getRandomValues(new Uint8Array(8))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  const answer = await fetch(`${served.url}/api/visits`, {
    method: "POST",
    headers: { "Content-Type": "application/json", "X-Device": "00000000000000ee", Origin: served.url },
    body: JSON.stringify({ id, kind }),
  });
  assert.ok(answer.ok, await answer.clone().text());
  page = await openDevice(browser, size);
  await page.goto(`${served.url}/visits/${id}/action-12`);
  await page.waitForSelector(".checkpoint h2");
  return id;
}

async function done() {
  assert.deepEqual(page.faults, []);
  await page.context().close();
}

async function complain(text, fret = "") {
  await page.getByLabel("What is wrong, in the player’s own words").fill(text);
  if (fret !== "") await page.getByLabel(/^Fret/).fill(fret);
  await page.getByRole("button", { name: "Keep this complaint" }).click();
}

const lineOf = (text) => page.locator(".said-line", { hasText: text });

for (const size of ["small", "tablet", "desk"]) {
  test(`back to the visits and to the sheet, ${size}`, async () => {
    const visit = await openVisit("electric guitar", size);
    const { dossier } = await view(visit);
    const views = [
      `/visits/${visit}/action-12`, `/visits/${visit}/verdict`, `/dossiers/${dossier}`, "/sums", "/sums/fret-places", "/shop", "/pair",
    ];
    for (const path of views) {
      await page.goto(served.url + path);
      const back = page.locator('a[href="/"]:visible');
      await until(`a way back on ${path}`, async () => (await back.count()) > 0);
      const { y, height } = await back.first().boundingBox();
      assert.ok(y >= 0 && y + height <= page.viewportSize().height, `${path}: the way back is seen without scrolling`);
      await back.first().click();
      await page.waitForSelector(".visits-page");
    }
    for (const path of [`/visits/${visit}/verdict`, `/dossiers/${dossier}`]) {
      await page.goto(served.url + path);
      await page.locator(`a[href="/visits/${visit}"]:visible`).first().click();
      await page.waitForSelector(".checkpoint h2");
    }
    // Photo, remark and the player's words are one tap away, and one tap leads back.
    for (const [name, there] of [["Photo", ".photo-taker"], ["Remark", "text=Keep this remark"], ["Player’s words", "text=Keep this complaint"]]) {
      await page.getByRole("button", { name, exact: true }).and(page.locator(":visible")).first().click();
      await page.waitForSelector(there);
      await page.getByRole("button", { name: /^Back to / }).click();
      await page.waitForSelector(".checkpoint h2");
    }
    await done();
  });
}

test("an ending stays with its own complaint", async () => {
  const visit = await openVisit();
  await page.keyboard.press("w");
  await complain("Buzzes in the middle");
  await complain("heavy to hold");
  await until("two complaints", async () => (await inForce(visit, "/wants/complaints")).length === 2);
  await lineOf("Buzzes").getByRole("button", { name: "How it ended" }).click();
  await page.getByLabel("Why, or how it shows").fill("fell silent after levelling");
  await page.getByRole("button", { name: "left by agreement" }).click();
  await until("its judgement", async () =>
    (await view(visit)).assessment.complaints.some((one) => one.ending === "left by agreement"));
  for (const again of [false, true]) {
    if (again) {
      await page.reload(); // what was open is open again
      await lineOf("Buzzes").waitFor();
    }
    await until("the ending under it", async () => (await lineOf("Buzzes").textContent()).includes("left by agreement"));
    assert.equal((await lineOf("heavy to hold").textContent()).includes("left by agreement"), false);
    assert.deepEqual(await page.locator(".said-line blockquote").allTextContents(), ["“Buzzes in the middle”", "“heavy to hold”"]);
  }
  await done();
});

test("a range of frets is kept, and a fret that is none is refused with nothing lost", async () => {
  const visit = await openVisit();
  await page.keyboard.press("w");
  const fret = page.getByLabel(/^Fret/);
  await page.getByLabel("What is wrong, in the player’s own words").fill("buzzes");
  await fret.fill("99");
  await page.waitForSelector("text=There is no fret 99.");
  assert.equal(await fret.inputValue(), "99");
  assert.ok(await page.getByRole("button", { name: "Keep this complaint" }).isDisabled());
  await fret.fill("");
  await fret.pressSequentially("5-7");
  assert.equal(await fret.inputValue(), "5-7");
  await page.locator(".place-picker button", { hasText: "6 E" }).click();
  await page.getByRole("button", { name: "Keep this complaint" }).click();
  const [kept] = await until("the complaint", async () => {
    const found = await inForce(visit, "/wants/complaints");
    return found.length === 1 && found;
  });
  assert.deepEqual(kept, { text: "buzzes (frets 5 to 7)", at: { string: 6, fret: 5 } });
  assert.deepEqual([await fret.inputValue(), await page.locator(".place-picker [aria-pressed=true]").count()], ["", 0]);
  await done();
});

test("five strings in two taps, and everything read by string follows", async () => {
  const visit = await openVisit("electric bass");
  await page.getByRole("button", { name: /^Instrument: / }).click();
  await page.getByRole("radio", { name: "5", exact: true }).check();
  await until("five strings", async () => (await view(visit)).instrument.strings === 5);
  await page.keyboard.press("Escape");
  await until("five places", async () => (await page.locator(".checkpoint .figure").count()) === 5);
  // A tuning for another number of strings offers to change it.
  await page.keyboard.press("w");
  await page.getByLabel("Another tuning").fill("C3 G2 D2 A1 E1 B0");
  await page.getByLabel("Another tuning").press("Enter");
  await page.waitForSelector("text=6 notes, and the instrument has 5 strings.");
  await page.getByRole("button", { name: "It has 6 strings" }).click();
  await until("six strings", async () => (await view(visit)).instrument.strings === 6);
  const [wished] = await until("the tuning", async () => {
    const found = await inForce(visit, "/wants/tuning");
    return found.length === 1 && found;
  });
  assert.deepEqual(wished, ["C3", "G2", "D2", "A1", "E1", "B0"]);
  await done();
});

test("a new visit says its hands, its scope and its strings", async () => {
  page = await openDevice(browser, "wide");
  await page.goto(served.url);
  await page.getByRole("button", { name: "New visit" }).click();
  assert.ok(await page.getByRole("radio", { name: /^look only/ }).isChecked());
  assert.ok(await page.getByRole("radio", { name: /^quick look/ }).isChecked());
  await page.getByRole("radio", { name: "7", exact: true }).check();
  await page.locator("button.kind", { hasText: "Electric guitar" }).click();
  await page.waitForSelector(".checkpoint h2");
  const visit = new URL(page.url()).pathname.split("/")[2];
  await until("seven strings", async () => (await view(visit)).instrument.strings === 7);
  // Work that these hands may not do is asked for first.
  await page.locator(".sheet-list button.list-line", { hasText: "Work done" }).click();
  await page.getByRole("radio", { name: "truss rod", exact: true }).check();
  await page.getByRole("button", { name: "Done, read it again" }).click();
  const change = page.getByRole("button", { name: "Hands may adjust, keep it" });
  await change.waitFor();
  assert.deepEqual(await inForce(visit, "/work"), []);
  await change.click();
  await until("the work", async () => (await inForce(visit, "/work")).length === 1);
  assert.deepEqual(await inForce(visit, "/hands"), ["adjust"]);
  await done();
});

test("a closed visit takes no entries, and the list stands as it was", async () => {
  const visit = await openVisit();
  await page.goto(served.url);
  await page.locator(`a.visit-row[href="/visits/${visit}"]`).click();
  await page.waitForSelector(".checkpoint h2");
  await page.goBack();
  const row = page.locator(`a.visit-row[href="/visits/${visit}"]`);
  await row.waitFor();
  const [whole, rule] = [await row.boundingBox(), await row.locator(".scale-rule").boundingBox()];
  assert.ok(rule.y >= whole.y && rule.y + rule.height <= whole.y + whole.height, "the rule of minutes stands in its line");
  await row.click();
  await page.getByRole("button", { name: /^Hands: / }).click();
  const asked = page.locator(".closing");
  assert.match(await asked.textContent(), /checkpoints to answer, at least \d+ min\. The verdict is: cannot tell yet\./);
  await page.getByRole("button", { name: "Close this visit" }).click();
  await page.getByRole("button", { name: "Yes, close it" }).click();
  await page.waitForSelector(".visits-page");
  await page.goto(`${served.url}/visits/${visit}/action-12`);
  await page.waitForSelector("text=This visit is closed.");
  const before = (await view(visit)).entries.length;
  for (const key of ["1", ".", "7", "Enter", "u"]) await page.keyboard.press(key);
  assert.ok(await page.locator(".pad button").first().isDisabled());
  assert.equal((await view(visit)).entries.length, before);
  await page.getByRole("button", { name: "Open it again" }).click();
  await until("open again", async () => !(await page.locator(".pad button", { hasText: "1" }).first().isDisabled()));
  await done();
});
