// proposals.html or improvements.html: what every printed document stands, and the table's numbers.
//   node gains_checks.mjs FILE expected.json
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";

import { openPage, run } from "./open_page.mjs";
import { stillChecks } from "./still_page.mjs";

const [file, expectedFile] = process.argv.slice(2);
const expected = JSON.parse(readFileSync(expectedFile, "utf8"));
const { browser, page, bad } = await openPage(file, { still: true });

const number = (text) => (text === "-" ? null : Number(text.replaceAll(",", "")));

// The first table, row by row, by the names in its head.
const summary = () =>
  page.locator("main table").first().evaluate((table) => {
    const names = [...table.tHead.rows[0].cells].map((cell) => cell.textContent);
    return [...table.tBodies[0].rows].map((row) =>
      Object.fromEntries([...row.cells].map((cell, i) => [names[i], cell.textContent])));
  });

const code = await run([
  ["its table has the layer's rows, in their order, with their numbers", async () => {
    const rows = await summary();
    assert.equal(rows.length, expected.length);
    rows.forEach((row, i) => {
      const words = Object.values(row);
      assert.ok(words.some((word) => word.includes(expected[i].name)), `${expected[i].name}: ${words}`);
      assert.ok(words.some((word) => Math.abs(number(word) - expected[i].gained_gpm) <= 1),
                `${expected[i].gained_gpm}: ${words}`);
    });
  }],
  ["each row has its page, with a map", async () => {
    const sections = await page.locator("main section.new-page:has(svg)").count();
    assert.ok(sections >= Math.min(expected.length, 1));
    for (const { name } of expected) {
      const titles = await page.locator("main section h2").allTextContents();
      assert.ok(titles.some((title) => title.includes(name)), name);
    }
  }],
  ...stillChecks(page, bad),
]);
await browser.close();
process.exit(code);
