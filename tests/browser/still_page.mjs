// What every printed document has to stand in a browser: a page by itself, without a script.
import assert from "node:assert/strict";

import { axeSource } from "./open_page.mjs";

const letter = { width: 700, height: 900 }; // of US letter, what its margins leave, in CSS pixels

async function violations(page) {
  await page.evaluate(axeSource); // past the policy, which lets no script in: axe is ours
  const found = await page.evaluate("axe.run()");
  return found.violations.map((one) => `${one.id}: ${one.nodes[0].html.slice(0, 200)}`);
}

// Checks by name, for `run`. `isThere`: does a link's file exist? `bad`: what openPage heard.
export function stillChecks(page, bad, isThere = () => false) {
  const elements = (selector) => page.locator(selector).count();
  return [
    ["its elements are its own", async () => {
      assert.equal(await elements("script, iframe, object, embed, link, base, form, img, [onerror], [onload]"), 0);
    }],
    ["headings are in order", async () => {
      const levels = await page.locator("h1, h2, h3, h4, h5, h6").evaluateAll((all) =>
        all.map((one) => [Number(one.tagName[1]), one.textContent.trim()]));
      assert.equal(levels.filter(([level]) => level === 1).length, 1);
      assert.equal(levels[0][0], 1);
      levels.forEach(([level, text], i) => {
        assert.ok(text.length > 0);
        assert.ok(i === 0 || level <= levels[i - 1][0] + 1, text);
      });
    }],
    ["its links lead to what is there", async () => {
      const links = await page.locator("a").evaluateAll((all) => all.map((one) => one.getAttribute("href")));
      for (const link of links) {
        assert.ok(link.startsWith("#") ? await elements(`[id="${link.slice(1)}"]`) : isThere(link), link);
      }
    }],
    ["the cautions are shown", async () => {
      assert.ok(await page.locator(".cautions").isVisible());
      assert.match(await page.locator(".cautions").innerText(), /timed drill[^]*rating organisation decides/);
    }],
    ["nothing shuts people out", async () => assert.deepEqual(await violations(page), [])],
    ["a phone shows it without a way sideways", async () => {
      await page.setViewportSize({ width: 360, height: 700 });
      assert.ok((await page.evaluate("document.documentElement.scrollWidth")) <= 360);
      assert.deepEqual(await violations(page), []);
    }],
    ["paper shows all of it but the ways to other sheets", async () => {
      await page.setViewportSize(letter);
      await page.emulateMedia({ media: "print" });
      assert.equal(await page.locator("nav:visible").count(), 0);
      for (const selector of ["h1", ".cautions", "main"]) assert.ok(await page.locator(selector).isVisible(), selector);
      const wide = await page.locator("main *:not(svg *)").evaluateAll((all, most) =>
        all.filter((one) => one.getBoundingClientRect().right > most + 0.5).map((one) => one.outerHTML.slice(0, 120)), letter.width);
      assert.deepEqual(wide, []);
      const pdf = await page.pdf({ preferCSSPageSize: true });
      assert.equal(pdf.subarray(0, 5).toString(), "%PDF-");
    }],
    ["nothing went wrong", async () => assert.deepEqual(bad, [])],
  ];
}
