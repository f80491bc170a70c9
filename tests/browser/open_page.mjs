// Opens a page from disk in Debian's Chromium and listens to everything that it must not do.
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";

const require = createRequire(import.meta.url);
const { chromium } = require("playwright-core");

export const axeSource = require("axe-core").source;

// `beforeOpening` is called when the browser stands ready. `bad`: requests to anything but the page, errors, dialogs, as sentences.
// `still`: a page without a script, which may hold pictures in itself.
export async function openPage(file, { width = 1280, height = 900, still = false, beforeOpening = () => {} } = {}) {
  const browser = await chromium.launch({
    executablePath: process.env.FARWATER_CHROMIUM || "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu"],
  });
  const context = await browser.newContext({ viewport: { width, height }, locale: "en-US" });
  const page = await context.newPage();
  const address = pathToFileURL(file).href;
  const bad = [];
  page.on("request", (request) => {
    if (still && request.url().startsWith("data:image/png;")) return;
    if (request.url().split("#")[0] !== address) bad.push("asks for " + request.url());
  });
  page.on("console", (message) => {
    if (["error", "warning"].includes(message.type())) bad.push("console: " + message.text());
  });
  page.on("pageerror", (error) => bad.push("error: " + error.message));
  page.on("dialog", (dialog) => {
    bad.push("dialog: " + dialog.message());
    dialog.dismiss();
  });
  beforeOpening();
  await page.goto(address);
  if (!still) await page.waitForSelector("html[data-ready=yes]", { timeout: 120000 });
  return { browser, page, bad };
}

// Runs the checks one after the other; comes back with the exit code.
export async function run(checks) {
  let failed = 0;
  for (const [sentence, check] of checks) {
    try {
      await check();
      console.log(`ok: ${sentence}`);
    } catch (error) {
      failed++;
      console.log(`FAILED: ${sentence}: ${error.message}`);
    }
  }
  return failed === 0 ? 0 : 1;
}
