// A page whose data try to break out of their place.
//   node hostile_checks.mjs report.html ID
import assert from "node:assert/strict";

import { openPage, run } from "./open_page.mjs";

const [file, id] = process.argv.slice(2);
const { browser, page, bad } = await openPage(file);
const elements = (selector) => page.locator(selector).count();

const code = await run([
  ["its elements are the page's own", async () => {
    assert.equal(await elements("img, iframe, object, embed, link, base, form:not(#find)"), 0);
    assert.equal(await elements("script:not([type])"), 1);
  }],
  ["the parcel is found by its id and shown letter by letter", async () => {
    await page.fill("#find-text", id);
    await page.locator("#finds button").first().click();
    assert.equal(await page.locator("#sheet h3 bdi").evaluate((one) => one.textContent), id);
    assert.equal(await elements("#sheet img, #sheet script, #finds img, #finds script"), 0);
  }],
  ["marks that turn the writing direction stay inside their own word", async () => {
    const outside = await page.locator("#sheet h3, #sheet .address, #finds button").evaluateAll((all) =>
      all.flatMap((one) => [...one.childNodes]).filter((node) => node.nodeType === 3).map((node) => node.data).join(""),
    );
    assert.ok(!/[\u202a-\u202e\u2066-\u2069]/.test(outside));
  }],
  ["a click on its ground opens the same sheet", async () => {
    await page.keyboard.press("Escape");
    await page.click("#whole");
    await page.waitForTimeout(300);
    // The small district's roads and parcels lie from 500000 to 504000 east, 4500000 to 4501000
    // north; the whole of it fills 94 % of the map's narrower way.
    const box = await page.locator("#plot").boundingBox();
    const scale = 0.94 * Math.min(box.width / 4000, box.height / 1000);
    const x = box.x + box.width / 2 + (502350 - 502000) * scale;
    const y = box.y + box.height / 2 - (4500070 - 4500500) * scale;
    await page.mouse.click(x, y);
    assert.equal(await page.locator("#sheet h3 bdi").evaluate((one) => one.textContent), id);
  }],
  ["every sheet opens", async () => {
    for (const name of ["summary", "places", "data", "assumptions", "cautions", "map"]) {
      await page.click(`#sheets a[href="#${name}"]`);
      await page.waitForTimeout(100);
    }
  }],
  ["a script that gets in all the same is refused by the policy", async () => {
    const ran = await page.evaluate(() => {
      const script = document.createElement("script");
      script.textContent = "globalThis.gotIn = true";
      document.body.append(script);
      return globalThis.gotIn === true;
    });
    assert.equal(ran, false);
    assert.ok(bad.some((what) => what.includes("Content Security Policy")), "the refusal is not told");
  }],
  ["nothing else went wrong", async () => {
    assert.deepEqual(bad.filter((what) => !what.includes("Content Security Policy")), []);
  }],
]);
await browser.close();
process.exit(code);
