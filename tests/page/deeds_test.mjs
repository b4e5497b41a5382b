// What is done on the sheet beside typing figures: photos with marks, findings taken as they are, complaints ended,
// visits closed, figures read aloud, the foot switch. What counts is what the server holds afterwards.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { Served, openBrowser, openDevice, until } from "./served.mjs";

const picture = new URL("../../web/public/icon-192.png", import.meta.url);
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

// A visit of its own for each test, opened at a checkpoint.
async function openVisit(checkpoint, script) {
  const id = [...crypto.getRandomValues(new Uint8Array(8))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  const answer = await fetch(`${served.url}/api/visits`, {
    method: "POST",
    headers: { "Content-Type": "application/json", "X-Device": "00000000000000ee", Origin: served.url },
    body: JSON.stringify({ id, kind: "electric guitar" }),
  });
  assert.ok(answer.ok, await answer.clone().text());
  page = await openDevice(browser, "wide");
  if (script) await page.addInitScript(script);
  await page.goto(`${served.url}/visits/${id}/${checkpoint}`);
  await page.waitForSelector(".checkpoint h2");
  return id;
}

// Come to anew by way of the list: nothing is left of the page but what it keeps.
async function openAgain(visit, checkpoint) {
  await page.goto(served.url);
  await page.goto(`${served.url}/visits/${visit}/${checkpoint}`);
  await page.waitForSelector(".checkpoint h2");
}

async function done() {
  assert.deepEqual(page.faults, []);
  await page.context().close();
}

const press = async (text) => {
  for (const key of text) await page.keyboard.press(key === " " ? "Space" : key === "\n" ? "Enter" : key);
};
const also = (says) => page.locator(".sheet-list button.list-line", { hasText: says }).click();

test("a photo is kept with its marks, and they stand where they were put", async () => {
  const visit = await openVisit("tuners");
  await page.keyboard.press("p");
  await page.getByLabel("Choose a picture").setInputFiles(picture.pathname);
  const image = page.locator(".photo-fresh img");
  await until("the picture", () => image.evaluate((one) => one.complete && one.naturalWidth === 192));
  const { width, height } = await image.boundingBox();
  await image.click({ position: { x: width * 0.25, y: height * 0.5 } });
  await page.getByLabel("Words of mark 1").fill("screw missing");
  await page.getByRole("button", { name: "Put a mark in the middle" }).click();
  await page.getByRole("button", { name: "Mark 2," }).press("Shift+ArrowRight");
  await page.getByRole("button", { name: "Mark 2," }).press("ArrowUp");
  await page.getByLabel("What it shows").fill("tuner of string 3");
  await page.getByRole("button", { name: "Keep the photo" }).click();

  const [photo] = await until("the photo", async () => {
    const photos = await inForce(visit, "/photos");
    return photos.length === 1 && photos[0].path !== "" && photos;
  });
  assert.equal(photo.checkpoint, "tuners");
  assert.equal(photo.what, "tuner of string 3");
  assert.deepEqual(photo.marks[1], { x: 0.55, y: 0.49 });
  assert.equal(photo.marks[0].says, "screw missing");
  const [first] = photo.marks;
  assert.ok(Math.abs(first.x - 0.25) < 0.02 && Math.abs(first.y - 0.5) < 0.02, JSON.stringify(first));
  const bytes = Buffer.from(await (await fetch(`${served.url}/${photo.path}`)).arrayBuffer());
  assert.ok(bytes.equals(readFileSync(picture)), "the picture is kept byte for byte");

  await openAgain(visit, "tuners");
  await page.keyboard.press("p");
  const drawn = page.locator(".photo-sheet .photo-mark");
  await until("two marks drawn", async () => (await drawn.count()) === 2);
  const frame = await page.locator(".photo-sheet img").boundingBox();
  for (const [nth, mark] of photo.marks.entries()) {
    const box = await drawn.nth(nth).boundingBox();
    assert.ok(Math.abs(box.x + box.width / 2 - frame.x - mark.x * frame.width) < 2, `mark ${nth + 1} across`);
    assert.ok(Math.abs(box.y + box.height / 2 - frame.y - mark.y * frame.height) < 2, `mark ${nth + 1} down`);
  }
  await page.waitForSelector(".photo-words >> text=screw missing");
  await done();
});

test("a finding is taken as it is, with name and reason, until its value changes", async () => {
  const visit = await openVisit("action-12");
  await press("4.1 1.7 1.6 1.6 1.5 1.5\n");
  const finding = await until("a finding", async () =>
    (await view(visit)).assessment.findings.find((one) => one.checkpoint === "action-12"));
  await page.goto(`${served.url}/visits/${visit}/verdict`);
  await page.getByRole("button", { name: `Accept as it is: ${finding.title}` }).click();
  const keep = page.getByRole("button", { name: /^Accept 4\.1/ });
  await keep.click(); // neither name nor reason yet
  await page.waitForSelector("text=This is needed.");
  assert.deepEqual(await inForce(visit, "/accepted"), []);
  await page.getByLabel("Accepted by").fill("Ruta Vell");
  await page.getByLabel("Why").fill("played with a slide");
  await keep.click();
  const [accepted] = await until("the acceptance", async () => {
    const found = await inForce(visit, "/accepted");
    return found.length === 1 && found;
  });
  assert.deepEqual([accepted.finding, accepted.by, accepted.why], [finding.id, "Ruta Vell", "played with a slide"]);
  const judged = await until("the judgement of it", async () =>
    (await view(visit)).assessment.findings.find((one) => one.id === finding.id && one.accepted));
  assert.equal(judged.accepted.by, "Ruta Vell");
  await page.waitForSelector("text=/accepted by Ruta Vell.*played with a slide/");

  await page.goto(`${served.url}/visits/${visit}/action-12`);
  await page.waitForSelector(".checkpoint .figure");
  await page.locator(".figure-accepted").click();
  await press("4.4\n");
  await until("the lapse", async () =>
    (await view(visit)).assessment.findings.find((one) => one.id === finding.id)?.acceptance_lapsed);
  await until("the word of it gone from the sheet", async () => (await page.locator(".figure-accepted").count()) === 0);
  await page.goto(`${served.url}/visits/${visit}/verdict`);
  await page.waitForSelector("text=No longer accepted: the value has changed since.");
  assert.equal(await page.getByText(/accepted by Ruta Vell/).count(), 0);
  await done();
});

test("a complaint is written down and ended, and the verdict tells how", async () => {
  const visit = await openVisit("action-12");
  await press("1.7 1.7 1.6 1.6 1.5 1.5\n");
  await until("six heights", async () => (await inForce(visit, "/readings")).length === 6);
  await page.keyboard.press("w");
  await page.getByLabel("What is wrong, in the player’s own words").fill("rattles when I dig in");
  await page.locator(".place-picker button", { hasText: "6 E" }).click();
  await page.getByRole("button", { name: "Keep this complaint" }).click();
  await until("the complaint", async () => (await inForce(visit, "/wants/complaints")).length === 1);
  await page.getByRole("button", { name: "How it ended" }).click();
  await page.getByLabel("Why, or how it shows").fill("string 6 raised by a turn");
  await page.getByRole("button", { name: "cured", exact: true }).click();
  const [complaint] = await until("the ending", async () => {
    const found = await inForce(visit, "/wants/complaints");
    return found.length === 1 && found[0].ending && found;
  });
  assert.deepEqual([complaint.text, complaint.at], ["rattles when I dig in", { string: 6 }]);
  assert.deepEqual([complaint.ending.as, complaint.ending.why], ["cured", "string 6 raised by a turn"]);
  const readings = await inForce(visit, "/readings");
  const shown = complaint.ending.shown_by.map((id) => readings.find((one) => one.id === id)?.at.string);
  assert.deepEqual(shown, [6], "the reading of its own string shows it");
  const told = await until("the judgement of it", async () =>
    (await view(visit)).assessment.complaints.find((one) => one.ending === "cured"));
  assert.equal(told.text, "rattles when I dig in");
  await page.goto(`${served.url}/visits/${visit}/verdict`);
  await page.waitForSelector(".complaint-ending:has-text('cured')");
  await done();
});

test("a visit is closed and opened again", async () => {
  const visit = await openVisit("action-12");
  await page.getByRole("button", { name: /^Hands: / }).click();
  await page.getByRole("button", { name: "Close this visit" }).click();
  assert.equal((await view(visit)).closed, undefined, "it is asked first");
  await page.getByRole("button", { name: "Yes, close it" }).click();
  await page.waitForSelector(".visits-page");
  assert.ok((await view(visit)).closed, "closed on the server");
  await page.locator(`a.visit-row[href="/visits/${visit}"]`, { hasText: "closed" }).click();
  await page.waitForSelector("text=This visit is closed.");
  await page.getByRole("button", { name: "Open it again" }).first().click();
  await until("open again", async () => (await view(visit)).closed === undefined);
  await until("the word of it gone", async () => (await page.getByText("This visit is closed.").count()) === 0);
  await done();
});

test("accepted figures are read aloud on wish, and only then", async () => {
  const visit = await openVisit("action-12", () => {
    window.spoken = [];
    const stub = { cancel: () => window.spoken.push("(stopped)"), speak: (said) => window.spoken.push(said.text) };
    Object.defineProperty(window, "speechSynthesis", { value: stub });
  });
  await press("1.9\n");
  await until("a height", async () => (await inForce(visit, "/readings")).length === 1);
  assert.deepEqual(await page.evaluate(() => window.spoken), []);
  await also("Keys and settings");
  await page.getByRole("group", { name: "Read accepted figures aloud" }).getByLabel("yes").check();
  await page.keyboard.press("Escape");
  await press("1.85\n");
  await until("two heights", async () => (await inForce(visit, "/readings")).length === 2);
  const stored = (await inForce(visit, "/readings")).at(-1);
  assert.deepEqual([stored.at, stored.value], [{ string: 5, fret: 12 }, "1.85 mm"]);
  // What was still being said is cut off by what is newer.
  assert.deepEqual(await page.evaluate(() => window.spoken), ["(stopped)", "string 5, fret 12, 1.85 millimetres"]);
  await done();
});

test("a foot switch takes the figure, and passes on where nothing is typed", async () => {
  const visit = await openVisit("action-12");
  await press("?");
  await page.getByLabel("Foot switch").press("PageDown");
  await until("the key learned", async () => (await page.getByLabel("Foot switch").inputValue()) === "PageDown");
  await openAgain(visit, "action-12"); // the device remembers it
  for (const figure of ["1.7", "", "1.6"]) {
    await press(figure);
    await page.keyboard.press("PageDown");
  }
  const taken = await until("two heights", async () => {
    const found = await inForce(visit, "/readings");
    return found.length === 2 && found;
  });
  assert.deepEqual(taken.map((one) => [one.at.string, one.value]), [[6, "1.7 mm"], [4, "1.6 mm"]]);
  // On a judged checkpoint it rates nothing; it goes on to the next open one.
  await page.goto(`${served.url}/visits/${visit}/tuners`);
  await page.waitForSelector(".rating-step");
  await page.keyboard.press("PageDown");
  await page.waitForFunction(() => !location.pathname.endsWith("/tuners"));
  assert.deepEqual(await inForce(visit, "/ratings"), []);
  await done();
});

test("the step onward passes over what these hands may not do, and says so", async () => {
  const { procedure } = await served.get("/api/catalogue");
  const disturbs = (one) => (one.disturbs ?? "nothing") !== "nothing";
  const disturbing = new Set(procedure.checkpoints.filter(disturbs).map((one) => one.id));
  const visit = await openVisit("action-12");
  await page.getByRole("button", { name: /^Hands: / }).click();
  await page.getByRole("radio", { name: "set-up" }).check();
  await page.getByRole("radio", { name: "look only" }).check();
  await until("hands and scope", async () => {
    const { assessment } = await view(visit);
    return assessment.hands === "look only" && assessment.scope === "set-up";
  });
  await page.keyboard.press("Escape");
  const { checkpoints } = await view(visit);
  const open = checkpoints.filter((one) => one.in_scope && !one.done && one.id !== "action-12");
  const barred = open.filter((one) => disturbing.has(one.id));
  assert.ok(barred.length > 2 && barred.length < open.length, barred.map((one) => one.id).join(", "));
  const seen = [];
  let said = "";
  for (let steps = 0; steps < open.length; ++steps) {
    await page.keyboard.press("n");
    const id = await page.evaluate(() => location.pathname.split("/").at(-1));
    if (seen.includes(id)) break;
    seen.push(id);
    said += await page.locator(".checkpoint .caption", { hasText: "Passed over" }).allTextContents();
  }
  assert.deepEqual(seen.filter((id) => disturbing.has(id)), []);
  assert.ok(seen.length > 5, seen.join(", "));
  assert.match(said, /not allowed with these hands: .*look only: it slackens strings/);
  await page.goto(`${served.url}/visits/${visit}/${barred[0].id}`);
  await page.waitForSelector("text=/Not allowed with these hands.*look only: it /");
  assert.equal(await page.locator(".checkpoint .entry, .checkpoint .rating").count(), 0);
  const line = page.locator(`.list-line[href$="/${barred[0].id}"]`);
  assert.match(await line.textContent(), /not allowed.*look only: it /);
  await done();
});
