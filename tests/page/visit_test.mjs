// A whole visit in a real browser: typed through at tablet size, reloaded and the server killed in the middle, a
// second device looking on; what is exported is what was typed.
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

const bench = (visit) => served.get(`/api/visits/${visit}/bench`);
const readings = async (visit, what) => ((await bench(visit)).readings ?? []).filter((one) => one.what === what);

async function newVisit(page, kind) {
  await page.goto(served.url);
  await settle(page);
  await page.getByRole("button", { name: "New visit" }).click();
  await page.getByRole("button", { name: kind }).click();
  await page.waitForURL(/\/visits\/[0-9a-f]{16}/);
  await page.waitForSelector(".checkpoint h2");
  return page.url().match(/visits\/([0-9a-f]{16})/)[1];
}

// Types as a person or a caliper does; answers with the number of presses that are not digits or points.
async function type(page, text) {
  let beyond = 0;
  for (const key of text) {
    if (!/[\d.]/.test(key)) beyond += 1;
    await page.keyboard.press(key === " " ? "Space" : key === "\n" ? "Enter" : key);
  }
  return beyond;
}

test("six string heights take at most nine presses beyond the digits", async () => {
  const page = await openDevice(browser, "wide");
  const visit = await newVisit(page, "Electric guitar");
  const beyond = await type(page, "h1.7 1.7 1.6 1.6 1.5 1.5\n");
  console.log(`presses beyond the digits: ${beyond}`);
  assert.ok(beyond <= 9, `${beyond} presses`);
  const six = await until("six heights", async () => {
    const found = await readings(visit, "string height");
    return found.length === 6 && found;
  });
  assert.deepEqual(
    six.map((one) => [one.at.string, one.at.fret, one.value]).sort((a, b) => b[0] - a[0]),
    [[6, 12, "1.7 mm"], [5, 12, "1.7 mm"], [4, 12, "1.6 mm"], [3, 12, "1.6 mm"], [2, 12, "1.5 mm"], [1, 12, "1.5 mm"]],
  );
  // The finished row stays, with what comes next; one more Enter goes there.
  await page.waitForSelector(".leads-on >> text=/Enter: next, /");
  assert.match(await page.textContent(".checkpoint h2"), /String height/);
  await type(page, "\n");
  await until("the next checkpoint", async () => !/String height/.test(await page.textContent(".checkpoint h2")));
  assert.deepEqual(page.faults, []);
  await page.context().close();
});

test("a reload, a killed server and a second device lose nothing", async () => {
  const page = await openDevice(browser, "tablet");
  const visit = await newVisit(page, "Electric guitar");
  await type(page, "h1,9\n"); // a decimal comma is taken on the page
  await until("the first height", async () => (await readings(visit, "string height")).length === 1);

  await page.reload();
  await page.waitForSelector(".checkpoint h2");
  await type(page, "h");
  await page.waitForSelector(".checkpoint h2:has-text(\"String height\")");

  const other = await openDevice(browser, "small");
  await other.goto(`${served.url}/visits/${visit}/action-12`);
  await other.waitForSelector(".checkpoint h2");

  await served.kill();
  await type(page, "1.85\n");
  await page.waitForSelector("text=/Link is down/");
  await served.start();
  const two = await until("the height typed while the server was dead", async () => {
    const found = await readings(visit, "string height");
    return found.length === 2 && found;
  });
  assert.deepEqual(two.map((one) => one.value).sort(), ["1.85 mm", "1.9 mm"]);
  await other.waitForSelector("text=/1\\.85/");
  assert.deepEqual([...page.faults, ...other.faults], []);
  await page.context().close();
  await other.context().close();
});

test("a quick look comes to a verdict in at most forty taps", async () => {
  const page = await openDevice(browser, "wide");
  let taps = 2; // new visit, kind
  const visit = await newVisit(page, "Electric guitar");
  const tap = async (target) => {
    taps += 1;
    await target.first().click();
  };
  const figures = async (text) => {
    for (const key of text) await tap(page.locator(`.pad button:text-is("${key}")`));
  };
  const open = async () => {
    const view = await served.get(`/api/visits/${visit}`);
    return view.checkpoints.filter((one) => one.in_scope && !one.done).map((one) => one.id);
  };
  for (let left = await open(); left.length > 0; ) {
    const title = await page.textContent(".checkpoint h2");
    const whole = page.locator("button:visible:text-is('Same for all')");
    if (await page.locator(".rating-step").count()) await tap(page.locator(".rating-step"));
    else if (await page.locator(".all-rang").count()) await tap(page.locator(".all-rang"));
    else if (await page.locator("button:has-text('All just moves')").count())
      await tap(page.locator("button:has-text('All just moves')"));
    else if (await page.locator(".tap-word").count()) await tap(page.locator(".tap-word"));
    else if (await whole.count()) {
      await figures(title.includes("height") ? "1.7" : "0");
      await tap(whole);
    } else {
      await figures(title.includes("Back") ? "0.2" : "1");
      await tap(page.locator(".pad .next"));
    }
    const stays = (await page.locator(".figure").count()) > 1 || (await page.locator(".pad").count()) > 0;
    const before = left.length;
    left = await until(`an answer to ${title}`, async () => {
      const now = await open();
      return now.length < before ? now : null;
    }).catch(async (error) => {
      throw new Error(`${error.message}; open: ${(await open()).join(", ")}`);
    });
    // A rating goes on by itself; a row stays, with its limits, until it is told to go on.
    if (left.length > 0 && stays) await tap(page.locator(".pad .next, button:visible:text-is('Next checkpoint')"));
    await until("the next one", async () => left.length === 0 || (await page.textContent(".checkpoint h2")) !== title);
  }
  console.log(`taps: ${taps}`);
  assert.ok(taps <= 40, `${taps} taps`);
  const { assessment } = await served.get(`/api/visits/${visit}`);
  assert.notEqual(assessment.verdict, "cannot tell yet", assessment.reasons.join("; "));
  await page.waitForSelector(`text=/${assessment.verdict}/i`);
  assert.deepEqual(page.faults, []);
  await page.context().close();
});
