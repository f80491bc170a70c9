// cards.html: no script, nothing from outside, an index that leads to cards, readable everywhere.
//   node cards_checks.mjs cards.html ID
import assert from "node:assert/strict";

import { axeSource, openPage, run } from "./open_page.mjs";

const [file, id] = process.argv.slice(2);
const { browser, page, bad } = await openPage(file, { still: true });
const elements = (selector) => page.locator(selector).count();

async function violations() {
  // Past the policy, which lets no script in: axe is ours.
  await page.evaluate(axeSource);
  const found = await page.evaluate("axe.run()");
  return found.violations.map((one) => `${one.id}: ${one.nodes[0].html.slice(0, 200)}`);
}

const code = await run([
  ["its elements are its own", async () => {
    assert.equal(await elements("script, iframe, object, embed, link, base, form, [onerror]"), 0);
    assert.equal(await elements("img"), 2 * (await elements("article")));
    assert.equal(await elements('img[src^="data:image/png;base64,"]'), await elements("img"));
    const drawn = await page.locator("img").evaluateAll((all) => all.every((one) => one.complete && one.naturalWidth > 0));
    assert.ok(drawn, "a map is not drawn");
  }],
  ["the hostile id stands in the index letter by letter", async () => {
    const houses = await page.locator("nav.index span").evaluateAll((all) => all.map((one) => one.textContent));
    assert.ok(houses.some((one) => one.includes(id)), houses.join(" | "));
  }],
  ["every number of the index leads to its card", async () => {
    const links = await page.locator("nav.index a").evaluateAll((all) =>
      all.map((one) => [one.textContent, document.querySelector(one.getAttribute("href"))?.querySelector(".badge b")?.textContent]));
    assert.ok(links.length > 0);
    for (const [number, badge] of links) assert.equal(badge, number);
  }],
  ["the flow to plan on is on every card", async () => {
    const cards = await page.locator('article[id^="card-"] .numbers').allInnerTexts();
    assert.ok(cards.length > 0);
    for (const card of cards) assert.match(card, /PLAN ON\s+\d+\s+gpm/);
  }],
  ["nothing shuts people out", async () => assert.deepEqual(await violations(), [])],
  ["a phone shows it without a way sideways", async () => {
    await page.setViewportSize({ width: 360, height: 700 });
    assert.ok((await page.evaluate("document.documentElement.scrollWidth")) <= 360);
    assert.deepEqual(await violations(), []);
  }],
  ["nothing went wrong", async () => assert.deepEqual(bad, [])],
]);
await browser.close();
process.exit(code);
