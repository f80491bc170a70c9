// Parcels drawn on top of each other, the second time the other way round, are filled as one is.
//   node overlap_checks.mjs once.html twice.html
import assert from "node:assert/strict";

import { openPage, run } from "./open_page.mjs";

// Pixels of the map that are of the colour of its middle parcel, out of all; and their colour.
async function inked(file) {
  const { browser, page } = await openPage(file);
  await page.click("#whole");
  await page.waitForTimeout(200);
  const counts = await page.evaluate(() => {
    const canvas = document.getElementById("canvas");
    const copy = document.createElement("canvas");
    copy.width = canvas.width;
    copy.height = canvas.height;
    const ink = copy.getContext("2d", { willReadFrequently: true });
    ink.drawImage(canvas, 0, 0);
    const { data } = ink.getImageData(0, 0, canvas.width, canvas.height);
    const counts = new Map();
    for (let i = 0; i < data.length; i += 4) {
      const colour = `${data[i]} ${data[i + 1]} ${data[i + 2]}`;
      counts.set(colour, (counts.get(colour) ?? 0) + 1);
    }
    return [...counts].sort((a, b) => b[1] - a[1]);
  });
  await browser.close();
  return { paper: counts[0][0], all: counts.reduce((sum, [, count]) => sum + count, 0), bare: counts[0][1] };
}

const [once, twice] = await Promise.all(process.argv.slice(2).map(inked));
process.exitCode = await run([
  ["no ground of a parcel is bare because another lies on it", async () => {
    assert.equal(twice.paper, once.paper);
    const covered = ({ all, bare }) => all - bare;
    assert.ok(covered(once) > 0.002 * once.all, `${covered(once)} pixels are covered`);
    assert.ok(covered(twice) >= 0.98 * covered(once), `${covered(twice)} of ${covered(once)} pixels`);
  }],
]);
