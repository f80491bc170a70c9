// The page for the public: a document without a script.
//   node public_checks.mjs report.html
import { openPage, run } from "./open_page.mjs";
import { stillChecks } from "./still_page.mjs";

const { browser, page, bad } = await openPage(process.argv[2], { still: true });
const code = await run(stillChecks(page, bad));
await browser.close();
process.exit(code);
