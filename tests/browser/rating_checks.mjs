// The rating's documents: each a file by itself, readable everywhere, printable, with the numbers of
// the layer and of the tables.
//   node rating_checks.mjs RESULT_FOLDER expected.json
import assert from "node:assert/strict";
import { existsSync, readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";

import { openPage, run } from "./open_page.mjs";
import { stillChecks } from "./still_page.mjs";

const [folder, expectedFile] = process.argv.slice(2);
const expected = JSON.parse(readFileSync(expectedFile, "utf8"));
const rating = join(folder, "rating");

// Rows of a table of the result, by the names in its head.
function csv(name) {
  const rows = [[""]];
  let quoted = false;
  for (const c of readFileSync(join(folder, "tables", name), "utf8").replace(/^\uFEFF/, "")) {
    const row = rows.at(-1);
    if (c === '"') {
      if (!quoted && row.at(-1).endsWith("\u0000")) row.push(row.pop().slice(0, -1) + '"');
      quoted = !quoted;
      if (!quoted) row.push(row.pop() + "\u0000");
    } else if (c === "," && !quoted) row.push("");
    else if (c === "\n" && !quoted) rows.push([""]);
    else if (c !== "\r" || quoted) row.push(row.pop() + c);
  }
  const [head, ...body] = rows.filter((row) => row.length > 1 || row[0] !== "").map((row) =>
    row.map((cell) => cell.replaceAll("\u0000", "")));
  return body.map((row) => Object.fromEntries(head.map((name, i) => [name, row[i]])));
}

const number = (text) => Number(text.replaceAll(",", "").replace(/ .*$/, ""));
const shown = (gpm) => (gpm < 500 ? Math.floor(gpm / 25) * 25 : Math.floor(gpm / 50) * 50);

const rowsUnder = (page, heading) =>
  page.locator(`h2:text-is("${heading}")`).evaluate((title) => {
    let next = title.nextElementSibling;
    while (next && !next.matches("table")) next = next.nextElementSibling;
    return [...next.tBodies[0].rows].map((row) => [...row.cells].map((cell) => cell.textContent.trim()));
  });

const ownNumbers = {
  "coverage.html": async (page) => {
    const rows = await rowsUnder(page, "Categories");
    assert.equal(rows.length, Object.keys(expected.words).length);
    for (const [word, meaning, parcels] of rows) {
      assert.equal(number(parcels), expected.categories[word] ?? 0, `${word}, ${meaning}`);
    }
    const all = Object.values(expected.categories).reduce((sum, count) => sum + count, 0);
    const water = expected.categories[expected.words.near] ?? 0;
    const [, of, total] = (await page.locator(".statement").innerText()).match(/^([\d,]+) of ([\d,]+) parcels/);
    assert.deepEqual([number(of), number(total)], [water, all]);
    for (const reason of csv("rating_reasons.csv")) {
      assert.equal(Number(reason.parcels), expected.reasons[reason.rating_fails_first] ?? 0, reason.rating_fails_first);
    }
  },
  "sources.html": async (page) => {
    const told = csv("rating_sources.csv").filter((row) => row.offered_for_rating === "yes");
    const rows = await rowsUnder(page, "Offered for rating");
    assert.deepEqual(rows.map(([id]) => id), told.map((row) => row.source_id));
    for (const [i, [id, , , rate, verdict]] of rows.entries()) {
      assert.equal(verdict === "counts", told[i].counts === "yes", id);
      assert.equal(number(rate), Math.floor(Number(told[i].rate_gpm)), id);
    }
    assert.equal(await page.locator("section h2").count(), rows.length);
  },
  "claims.html": async (page) => {
    const rows = await rowsUnder(page, "What is claimed");
    assert.deepEqual(rows.map(([says, data]) => [says, data]),
                     csv("rating_claims.csv").map((row) => [row.department_says, row.data_show]));
  },
  "calculations.html": async (page) => {
    const places = await page.locator("main section").evaluateAll((sections) => sections.map((section) => ({
      id: section.querySelector("h2").textContent.replace("Parcel ", ""),
      facts: Object.fromEntries([...section.querySelectorAll("tr")].map((row) =>
        [row.cells[0].textContent, row.cells[1].textContent])),
    })));
    assert.ok(places.length >= 5);
    for (const { id, facts } of places) {
      const row = expected.parcels.find((one) => one.id === id);
      assert.ok(row, id);
      assert.equal(facts["Category"], row.category, id);
      assert.equal(number(facts["Credited in all"]), shown(row.credited ?? 0), id);
      if (row.start === null) assert.match(facts["Minimum flow begins, by the terms' clock"], /^not (within|worked out)/, id);
      else assert.equal(number(facts["Minimum flow begins, by the terms' clock"]), row.start, id);
      if (row.hose === null) assert.match(facts["Hose to the nearest source that counts"], /^no source/, id);
      else assert.equal(facts["Hose to the nearest source that counts"], `${Math.round(row.hose).toLocaleString("en-US")} ft to ${row.source}`, id);
    }
  },
  "missing.html": async (page) => {
    const told = new Set(csv("rating_missing.csv").filter((row) => row.subject === "source").map((row) => row.record));
    assert.deepEqual((await rowsUnder(page, "Sources offered for rating")).map(([id]) => id), [...told]);
  },
};

async function checksOf(name) {
  const { browser, page, bad } = await openPage(join(rating, name), { still: true });
  const own = ownNumbers[name];
  const checks = [
    ["it leads to the other sheets", async () => assert.ok(await page.locator("nav a").count() >= 6)],
    ...(own ? [["its numbers are those of the result", () => own(page)]] : []),
    ...stillChecks(page, bad, (link) => existsSync(join(rating, link))),
  ];
  const code = await run(checks.map(([what, check]) => [`${name}: ${what}`, check]));
  await browser.close();
  return code;
}

const names = readdirSync(rating).filter((name) => name.endsWith(".html")).sort();
let code = names.length === 7 ? 0 : 1;
for (const name of names) code = Math.max(code, await checksOf(name));
process.exit(code);
