// A map page with proposed sources, against the layers that it was made with.
//   node next_source_checks.mjs report.html expected.json
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";

import { axeSource, openPage, run } from "./open_page.mjs";

const [file, expectedFile] = process.argv.slice(2);
const { proposals, gains } = JSON.parse(readFileSync(expectedFile, "utf8"));
const { browser, page, bad } = await openPage(file);

const roundedDown = (gpm) => gpm - (gpm % (gpm < 500 ? 25 : 50));
const sheet = async (name) => {
  await page.click(`#sheets a[href="#${name}"]`);
  await page.locator(`#leaf-${name}`).waitFor();
};
const axe = async () => {
  const result = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ["violations"] }));
  return result.violations.map(({ id, nodes }) => `${id}: ${nodes.slice(0, 3).map(({ html }) => html).join(" ")}`);
};

const code = await run([
  ["the sheet has the proposals in their order, with their gain", async () => {
    assert.ok(proposals.length > 0 && gains.length > 0);
    await sheet("next");
    const items = await page.locator("#next-list li").allInnerTexts();
    assert.equal(items.length, proposals.length);
    proposals.forEach(({ name, gained_gpm, parcels_gaining }, i) => {
      assert.ok(items[i].startsWith(name), items[i]);
      assert.ok(items[i].includes(`${Math.floor(gained_gpm).toLocaleString("en-US")} gpm more of the planned flow for ${parcels_gaining} parcels`), items[i]);
    });
    assert.equal(await page.locator("#next-tables tbody tr").count(), proposals.length);
    assert.ok(await page.locator(".gain-curve svg").isVisible());
  }],

  ["its button leads to the map, which then tells who gains", async () => {
    await page.locator("#next-list button").first().click();
    await page.locator("#leaf-map").waitFor();
    assert.ok(await page.locator('#questions input[value="next"]').isChecked());
    const gaining = new Map();
    for (const { parcel_id, gained_gpm } of gains) gaining.set(parcel_id, (gaining.get(parcel_id) ?? 0) + gained_gpm);
    const more = [...gaining.values()].filter((gpm) => gpm > 0).length;
    const rows = await page.locator("#key tbody tr").allInnerTexts();
    const said = rows.filter((row) => / more\t/.test(row)).reduce((sum, row) => sum + Number(row.split("\t")[2]), 0);
    assert.equal(said, more, rows.join("; "));
  }],

  ["a parcel's own sheet says what each would do for it", async () => {
    for (const { rank, parcel_id, before_gpm, after_gpm } of gains) {
      await page.fill("#find-text", parcel_id);
      await page.locator("#finds button").first().click();
      const terms = await page.locator("#sheet dt").allInnerTexts();
      const place = terms.findIndex((term) => term.startsWith(`${rank}. ${proposals[rank - 1].name}`));
      assert.ok(place >= 0, terms.join("; "));
      const words = await page.locator("#sheet dd").nth(place).innerText();
      assert.equal(words.replaceAll(",", ""), `${roundedDown(before_gpm)} to ${roundedDown(after_gpm)} gpm`);
    }
  }],

  ["no text of the data is read as HTML, and the checker finds nothing", async () => {
    assert.equal(await page.locator("img").count(), 0);
    await page.evaluate(axeSource);
    for (const name of ["next", "map"]) {
      await sheet(name);
      await page.waitForTimeout(150);
      assert.deepEqual(await axe(), [], name);
    }
  }],

  ["it is no wider than a phone", async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await sheet("next");
    assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 390);
  }],

  ["all the while nothing was asked of the network, and nothing went wrong", async () => {
    assert.deepEqual(bad, []);
  }],
]);
await browser.close();
process.exit(code);
