// What somebody does with report.html, step by step, and what must come of it.
//   node report_checks.mjs report.html expected.json
// expected.json: the rows of the layer parcel_supply, in their order.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";

import { axeSource, openPage, run } from "./open_page.mjs";

const [file, expectedFile] = process.argv.slice(2);
const parcels = JSON.parse(readFileSync(expectedFile, "utf8"));
const improved = parcels.filter(({ state }) => state !== "no_building");
const { browser, page, bad } = await openPage(file);

// --- what the page should say, worked out again from the data ------------------------------------

const roundedDown = (gpm, needed = Infinity) => Math.max(gpm - (gpm % (gpm < 500 ? 25 : 50)), gpm >= needed ? Math.floor(needed) : 0);
const grouped = (number) => String(number).replace(/\B(?=(\d{3})+$)/g, ",");
const labels = {
  held: "meets planned flow",
  late: "meets planned flow from a later start",
  short: "holds some flow, less than planned",
  tank_only: "water on wheels only",
  unreached: "no engine gets there",
  unknown: "not known",
  no_building: "without a building",
};
const countOf = (state) => parcels.filter((parcel) => parcel.state === state).length;

// A few of every state and every way for the water to come, spread over the district.
function sample() {
  const kinds = new Map();
  for (const parcel of parcels) {
    const kind = [parcel.state, parcel.supply_mode, parcel.second_fill_source_id === null].join();
    kinds.set(kind, [...(kinds.get(kind) ?? []), parcel]);
  }
  return [...kinds.values()].flatMap((rows) => rows.filter((_, i) => i % Math.ceil(rows.length / 3) === 0));
}

// --- what the page says --------------------------------------------------------------------------

const text = (selector) => page.locator(selector).innerText();
const drawn = () => page.getAttribute("#plot", "data-drawn").then(Number);
async function whenDrawn(after) {
  while ((await drawn()) <= after) await page.waitForTimeout(20);
}
async function find(words) {
  await page.fill("#find-text", words);
  return page.locator("#finds button").count();
}
async function open(id) {
  await find(id);
  await page.locator("#finds button", { has: page.locator(`bdi:text-is("${id}")`) }).first().click();
}
const fact = async (name) => {
  const term = page.locator("#sheet dt", { hasText: new RegExp(`^${name}$`) });
  return (await term.count()) === 0 ? "" : term.first().locator("xpath=following-sibling::dd[1]").innerText();
};
// Pixels of the map near a colour, out of all.
const pixels = (red, green, blue) =>
  page.evaluate(
    ([r, g, b]) => {
      const canvas = document.getElementById("canvas");
      const copy = document.createElement("canvas");
      copy.width = canvas.width;
      copy.height = canvas.height;
      const ink = copy.getContext("2d", { willReadFrequently: true });
      ink.drawImage(canvas, 0, 0);
      const { data } = ink.getImageData(0, 0, canvas.width, canvas.height);
      let count = 0;
      for (let i = 0; i < data.length; i += 4) {
        if (Math.abs(data[i] - r) + Math.abs(data[i + 1] - g) + Math.abs(data[i + 2] - b) < 12) count++;
      }
      return count;
    },
    [red, green, blue],
  );

const axe = async () => {
  const result = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ["violations"] }));
  return result.violations.map(({ id, nodes }) => `${id}: ${nodes.slice(0, 3).map(({ html }) => html).join(" ")}`);
};

const checks = [
  ["every parcel is counted in the key, by state and of the improved ones", async () => {
    const rows = await page.locator("#key tbody tr").allInnerTexts();
    const said = new Map(rows.map((row) => [row.split("\t")[1].trim(), row.split("\t").slice(2).map((s) => s.trim())]));
    for (const [state, label] of Object.entries(labels)) {
      const count = countOf(state);
      if (count === 0) continue;
      const share = state === "no_building" ? "–" : ((100 * count) / improved.length).toFixed(1) + " %";
      assert.deepEqual(said.get(label), [grouped(count), share], label);
    }
  }],

  ["a parcel's sheet shows the layer's numbers, rounded as documented", async () => {
    for (const parcel of sample()) {
      await open(parcel.parcel_id);
      assert.equal(await text("#sheet h3"), parcel.parcel_id);
      assert.equal((await text("#sheet .state")).trim().toLowerCase(), labels[parcel.state]);
      if (["no_building", "unknown"].includes(parcel.state)) {
        assert.equal(await page.locator("#sheet .big").count(), 0);
        continue;
      }
      const flow = roundedDown(parcel.cautious_gpm, parcel.needed_gpm);
      const needed = Math.ceil(parcel.needed_gpm);
      assert.equal(await text("#sheet .big"), `${grouped(flow)} gpm`, parcel.parcel_id);
      const body = await text("#sheet");
      if (flow > 0) assert.ok(body.includes(`held from minute ${Math.ceil(parcel.first_engine_min + 15)} after the alarm, for ${parcel.duration_min} min`), parcel.parcel_id);
      const short = parcel.shortfall_gpm > 0 ? `: short by ${grouped(needed - Math.max(flow, roundedDown(parcel.runner_up_gpm ?? 0, parcel.needed_gpm)))} gpm.` : ".";
      assert.ok(body.includes(`Planned flow ${grouped(needed)} gpm${short}`), parcel.parcel_id);
      const minutes = (min) => (min === null ? "" : `${Math.ceil(min)} min`);
      assert.equal(await fact("First engine at the house"), minutes(parcel.first_engine_min));
      assert.equal(await fact("Its tank on the fire"), minutes(parcel.tank_water_min));
      if (parcel.continuous_min !== null) assert.equal(await fact("Water keeps coming"), minutes(parcel.continuous_min));
      assert.ok((await fact("Dump site")).startsWith(parcel.dump_site_id ?? ""), `${parcel.parcel_id}: dump site`);
      const water = ["direct", "relay"].includes(parcel.supply_mode) ? "Source" : "Fill site";
      assert.ok((await fact(water)).startsWith(parcel.fill_source_id ?? ""), `${parcel.parcel_id}: ${water}`);
      const beside = parcel.second_fill_source_id;
      assert.ok(beside === null ? (await fact("Second fill site")) === "" : (await fact("Second fill site")).startsWith(beside), `${parcel.parcel_id}: second fill site`);
      if (parcel.tankers > 0) assert.equal(await fact("With one tanker out"), `${grouped(roundedDown(parcel.one_tanker_out_gpm, parcel.needed_gpm))} gpm`);
    }
  }],

  ["a parcel's sheet draws how the flow builds up, and tells what one more of each thing gains", async () => {
    const starts = [5, 8, 10, 15, 20, 30, 60];
    const things = { tanker: /like the largest$/, offload_slot: /slot to offload/, portable_tank: /one more portable tank/, siphon: /one more siphon/, road_room: /room for another/, crew: /people for one more/, ready_5_min: /ready 5 min earlier/ };
    for (const parcel of sample().filter(({ supply_mode }) => supply_mode === "shuttle")) {
      await open(parcel.parcel_id);
      const flows = starts.map((minute) => roundedDown(parcel[`from_${minute}_min_gpm`], parcel.needed_gpm));
      const chart = page.locator("#sheet svg.build-up title");
      assert.equal(await chart.count(), Math.max(...flows) > 0 ? 1 : 0, parcel.parcel_id);
      if (Math.max(...flows) > 0) {
        const said = starts.map((minute, i) => `${grouped(flows[i])} gpm from minute ${minute}`).join(", ");
        assert.ok((await chart.textContent()).includes(said), parcel.parcel_id);
      }
      for (const [thing, name] of Object.entries(things)) {
        const gain = Math.floor(parcel[`gain_${thing}_gpm`] / 5) * 5;
        const term = page.locator("#sheet dt", { hasText: name });
        assert.equal(await term.count(), gain > 0 ? 1 : 0, `${parcel.parcel_id}: ${thing}`);
        if (gain > 0) assert.equal(await term.locator("xpath=following-sibling::dd[1]").innerText(), `+${grouped(gain)} gpm`);
      }
      const more = parcel.more_tankers;
      const met = await fact("Planned flow is met with");
      assert.ok(more > 0 ? met.startsWith(`${more} more `) : met === "", `${parcel.parcel_id}: more tankers`);
    }
  }],

  ["each question has its own key with a unit, and every parcel is in one class", async () => {
    const captions = new Set();
    for (const radio of await page.locator("#questions input").all()) {
      const before = await drawn();
      await radio.check();
      await whenDrawn(before - (await radio.isChecked() ? 1 : 0));
      captions.add(await text("#key caption"));
      const counts = await page.locator("#key tbody td.number:nth-of-type(2)").allInnerTexts();
      const sum = counts.reduce((all, count) => all + Number(count.replaceAll(",", "")), 0);
      assert.equal(sum, parcels.length, await text("#key caption"));
    }
    assert.equal(captions.size, 6);
    await page.locator("#questions input[value=state]").check();
  }],

  ["no key says a bare state name", async () => {
    const key = await text("#key");
    for (const word of ["held", "late", "tank_only", "short\t"]) assert.ok(!key.split("\n").some((row) => row.split("\t")[1] === word.trim()), word);
    assert.ok(key.includes("meets planned flow"));
    assert.ok(key.includes("15 minutes after the first engine's arrival, for 120 minutes"), key);
  }],

  ["the search finds by parts of id and address, and says when there is none", async () => {
    const withAddress = parcels.find(({ address }) => address && address.includes(" "));
    assert.ok((await find(withAddress.address.toUpperCase())) > 0);
    assert.ok((await page.locator("#finds button").first().innerText()).includes(withAddress.address));
    assert.ok((await find(withAddress.address.split(" ").reverse().join("  "))) > 0);
    assert.equal(await find("no such place anywhere"), 0);
    assert.equal(await text("#find-said"), "No parcel has that in its id or address.");
    assert.equal(await find(""), 0);
    await find(parcels[0].parcel_id);
    assert.ok(Number(await page.getAttribute("#finds", "data-ms")) < 1000);
  }],

  ["a filter takes parcels off the map and brings them back", async () => {
    await page.click("#whole");
    await page.waitForTimeout(300);
    const held = page.locator("#filters input[value=held]");
    const before = await pixels(0x54, 0x27, 0x88);
    await held.uncheck();
    const without = await pixels(0x54, 0x27, 0x88);
    await held.check();
    assert.ok(before > 200 && without < before / 20, `${before}, then ${without}`);
    assert.equal(await pixels(0x54, 0x27, 0x88), before);
  }],

  ["a click and Enter at the same spot open the same parcel; Escape closes it", async () => {
    await page.locator("#plot").focus();
    for (let i = 0; i < 3; i++) await page.keyboard.press("+");
    await page.waitForTimeout(300);
    await page.keyboard.press("Enter");
    const byKey = await text("#sheet h3");
    await page.keyboard.press("Escape");
    assert.equal(await page.locator("#sheet h3").count(), 0);
    const box = await page.locator("#plot").boundingBox();
    await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
    assert.equal(await text("#sheet h3"), byKey);
    assert.ok(parcels.some(({ parcel_id }) => parcel_id === byKey));
  }],

  ["the keyboard alone gets from the top to a parcel's sheet and moves the map", async () => {
    await page.reload();
    await page.waitForSelector("html[data-ready=yes]");
    await page.keyboard.press("Tab");
    assert.equal(await page.evaluate(() => document.activeElement.className), "skip");
    await page.keyboard.press("Enter");
    assert.equal(await page.evaluate(() => document.activeElement.id), "find-text");
    await page.keyboard.type(parcels[5].parcel_id);
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("Enter");
    assert.equal(await page.evaluate(() => document.activeElement.id), "sheet");
    assert.equal(await text("#sheet h3"), parcels[5].parcel_id);
    for (let i = 0; i < 40 && (await page.evaluate(() => document.activeElement.id)) !== "plot"; i++) await page.keyboard.press("Shift+Tab");
    assert.equal(await page.evaluate(() => document.activeElement.id), "plot");
    for (const key of ["ArrowLeft", "ArrowUp", "+", "-", "0"]) {
      const before = await page.evaluate(() => document.getElementById("canvas").toDataURL());
      const times = await drawn();
      await page.keyboard.press(key);
      await whenDrawn(times);
      assert.notEqual(await page.evaluate(() => document.getElementById("canvas").toDataURL()), before, key);
    }
  }],

  ["every sheet is there, and no more than one at a time", async () => {
    for (const name of ["summary", "places", "data", "assumptions", "cautions", "map"]) {
      await page.click(`#sheets a[href="#${name}"]`);
      await page.waitForTimeout(100);
      assert.deepEqual(await page.locator("main > section:visible").evaluateAll((all) => all.map(({ id }) => id)), ["leaf-" + name]);
    }
    await page.click('#sheets a[href="#summary"]');
    const held = countOf("held");
    assert.ok((await text(".headline")).includes(`${held} of ${improved.length} improved parcels meet their planned flow (${((100 * held) / improved.length).toFixed(1)} %)`));
    const rows = await page.locator(".chart").first().locator("tbody tr, tr:has(th[scope=row])").allInnerTexts();
    assert.ok(rows.some((row) => row.includes("meets planned flow") && row.includes(grouped(held))));
    await page.click('#sheets a[href="#cautions"]');
    assert.ok((await text("#leaf-cautions")).includes("prove them by a timed drill"));
  }],

  ["paper gets the map, its key, the summary and the cautions, without buttons", async () => {
    await page.click('#sheets a[href="#map"]');
    await page.emulateMedia({ media: "print" });
    await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
    assert.ok(await page.locator(".on-paper").isVisible());
    for (const there of ["#key", "#leaf-summary .headline", ".chart >> nth=0", ".cautions"]) assert.ok(await page.locator(there).isVisible(), there);
    for (const gone of ["#find", ".tools", "nav", "#questions"]) assert.ok(!(await page.locator(gone).isVisible()), gone);
    const paper = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
    const sheets = paper.match(/\/Type\s*\/Page\b/g).length;
    assert.ok(sheets >= 3 && sheets <= 8, `${sheets} pages`);
    await page.emulateMedia({ media: "screen" });
  }],

  ["without proposals there is no sheet of them and no question", async () => {
    assert.ok(!(await page.isVisible('#sheets a[href="#next"]')));
    assert.equal(await page.locator('#questions input[value="next"]').count(), 0);
    assert.ok(!(await page.isVisible("#leaf-next")));
  }],

  ["the accessibility checker finds nothing on any sheet", async () => {
    await page.evaluate(axeSource);
    await open(parcels.find(({ state }) => state === "short" || state === "held").parcel_id);
    for (const name of ["map", "summary", "places", "data", "assumptions", "cautions"]) {
      await page.click(`#sheets a[href="#${name}"]`);
      await page.waitForTimeout(150);
      assert.deepEqual(await axe(), [], name);
    }
  }],

  ["nothing is wider than a phone, and the checker finds nothing there", async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    for (const name of ["map", "summary", "places", "data", "assumptions", "cautions"]) {
      await page.click(`#sheets a[href="#${name}"]`);
      await page.waitForTimeout(150);
      const width = await page.evaluate(() => document.documentElement.scrollWidth);
      assert.ok(width <= 390, `${name}: ${width}`);
    }
    await page.click('#sheets a[href="#map"]');
    assert.ok(await page.isVisible("text=worst season and period of each parcel"), "what the map shows");
    assert.deepEqual(await axe(), []);
    const small = await page.locator("button:visible, .choice:visible, nav a:visible").evaluateAll((all) => all.filter((one) => one.getBoundingClientRect().height < 24).map((one) => one.outerHTML));
    assert.deepEqual(small, []);
  }],

  ["all the while nothing was asked of the network, and nothing went wrong", async () => {
    assert.deepEqual(bad, []);
  }],
];

const code = await run(checks);
await browser.close();
process.exit(code);
