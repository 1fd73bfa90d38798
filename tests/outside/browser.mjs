// Opens the archive from disk in Chromium and prints what it sees: [{what, faults}].
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [packages, root, browser_path, ...pages] = process.argv.slice(2);
const require = createRequire(join(packages, "x.cjs"));
const { chromium } = require("playwright-core");
const axe = require("axe-core").source;

const WIDTHS = [320, 390, 1280];
const recipes = pages.filter((page) => page.startsWith("recipe:")).map((page) => page.slice(7));
const others = pages.filter((page) => !page.startsWith("recipe:"));
// Pages open from disk; the one for addresses that do not exist needs a host that gives it for them.
const LOST = "404.html";
const address = (page) => (page === LOST ? `${host}/no/such/page/` : pathToFileURL(join(root, page)).href);
const results = [];
const say = (what, faults) => results.push({ what, faults });

const browser = await chromium.launch({
  executablePath: browser_path,
  args: ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--disable-background-networking", "--no-first-run"],
});

const server = createServer(async (request, response) => {
  const { pathname } = new URL(request.url, host);
  const type = { css: "text/css", js: "text/javascript", svg: "image/svg+xml" }[pathname.split(".").pop()] ?? "text/html";
  try {
    const body = await readFile(join(root, pathname.endsWith("/") ? `${pathname}index.html` : pathname));
    response.writeHead(200, { "content-type": type }).end(body);
  } catch {
    response.writeHead(404, { "content-type": "text/html" }).end(await readFile(join(root, LOST)));
  }
});
await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
const host = `http://127.0.0.1:${server.address().port}`;

// A page whose console, errors and requests are watched.
async function open(context, page) {
  const tab = await context.newPage();
  const faults = [];
  const lost = (message) => page === LOST && message.location().url === address(page);
  tab.on("console", (message) => message.type() === "error" && !lost(message) && faults.push(`console: ${message.text()}`));
  tab.on("pageerror", (error) => faults.push(`error: ${error.message}`));
  tab.on("requestfailed", (request) => faults.push(`failed: ${request.url()}`));
  const own = (url) => (page === LOST ? url.startsWith(`${host}/`) : /^(file|data):/.test(url));
  tab.on("request", (request) => own(request.url()) || faults.push(`asks for ${request.url()}`));
  await tab.goto(address(page), { waitUntil: "load" });
  return { tab, faults };
}

// What a reader sees of each row of ingredients: its cells as shown.
const rows = (tab) =>
  tab.$$eval("table.amounts tbody tr", (found) =>
    found.map((row) => [...row.cells].map((cell) => (cell.offsetParent === null ? "" : cell.innerText.trim()))),
  );
const grams = (text) => {
  const found = /^([\d,.]+)\s*(k?)g$/.exec(text);
  return found ? Number(found[1].replaceAll(",", "")) * (found[2] ? 1000 : 1) : null;
};
const shows = (table, column) => table.filter((row) => row[column] !== "").length;
const choose = (tab, label) => tab.getByLabel(label, { exact: true }).check({ force: true });

// The unit switch and the batch switch, and that both are remembered.
async function switches(page) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
  const { tab, faults } = await open(context, page);
  const first = await rows(tab);
  const wrong = [];
  const expect = (ok, what) => ok || wrong.push(what);
  const weighed = first.map((row) => grams(row[0]));
  expect(weighed.some((weight) => weight > 0), `no weights at first: ${JSON.stringify(first.slice(0, 3))}`);
  expect(shows(first, 1) > 0, "no cups at first");
  await choose(tab, "Weights");
  let now = await rows(tab);
  expect(shows(now, 1) === 0, "cups are seen with Weights");
  expect(shows(now, 0) > 0, "no weights with Weights");
  await choose(tab, "Cups");
  now = await rows(tab);
  const cups = now.map((row) => row[1]);
  // What has no measure shows its weight in its place.
  expect(shows(now, 0) <= cups.filter((text) => text === "" || grams(text) !== null).length, "weights are seen with Cups");
  expect(shows(now, 1) > 0, "no cups with Cups");
  await tab.reload();
  expect(JSON.stringify(await rows(tab)) === JSON.stringify(now), "Cups is not remembered after a reload");
  expect(await tab.getByLabel("Cups", { exact: true }).isChecked(), "Cups is not marked after a reload");
  await choose(tab, "Side by side");
  for (const [label, times] of [["half", 0.5], ["two", 2], ["three", 3]]) {
    await choose(tab, label);
    now = (await rows(tab)).map((row) => grams(row[0]));
    // A weight is shown to the gram from 10 g, to half a gram from 3 g, to a tenth below.
    weighed.forEach((weight, at) => {
      const off = (figure) => (figure >= 10 ? 0.5 : figure >= 3 ? 0.25 : 0.05);
      const near = weight === null || Math.abs(now[at] - weight * times) <= off(now[at]) + times * off(weight) + 1e-6;
      expect(near, `batch ${label}: ${weight} g becomes ${now[at]} g`);
    });
  }
  await tab.reload();
  expect(JSON.stringify((await rows(tab)).map((row) => grams(row[0]))) === JSON.stringify(now), "the batch is not remembered");
  await choose(tab, "one");
  expect(JSON.stringify(await rows(tab)) === JSON.stringify(first), "one batch, side by side, is not what it was at first");
  await tab.getByLabel("one", { exact: true }).focus();
  await tab.keyboard.press("ArrowRight");
  expect(await tab.getByLabel("two", { exact: true }).isChecked(), "the arrow key does not choose the next batch");
  say(`${page}: switches`, [...wrong, ...faults]);
  await context.close();
}

// Without scripts: the amounts that a browser with scripts shows at first, and no switch that would do nothing.
async function without_scripts(page) {
  const tables = [];
  const faults = [];
  for (const javaScriptEnabled of [true, false]) {
    const context = await browser.newContext({ javaScriptEnabled });
    const { tab } = await open(context, page);
    const cells = await tab.locator("table.amounts td, table.amounts th").all();
    tables.push(await Promise.all(cells.map((cell) => cell.innerText())));
    const seen = await Promise.all((await tab.getByRole("radio").all()).map((radio) => radio.isVisible()));
    if (!javaScriptEnabled && seen.includes(true)) faults.push("a switch is seen that does nothing");
    await context.close();
  }
  if (tables[1].length === 0) faults.push("no amounts");
  tables[1].forEach((text, at) => text === tables[0][at] || faults.push(`${tables[0][at]} is ${text}`));
  say(`${page}: without scripts`, faults);
}

// Width, faults and accessibility, in light and in dark.
async function looks(page) {
  for (const colorScheme of ["light", "dark"]) {
    const context = await browser.newContext({ colorScheme, reducedMotion: "reduce" });
    const { tab, faults } = await open(context, page);
    if (colorScheme === "light") {
      for (const width of WIDTHS) {
        await tab.setViewportSize({ width, height: 900 });
        const over = await tab.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
        say(`${page}: no sideways scrolling at ${width}`, over > 0 ? [`${over} px too wide`] : []);
      }
      const styled = await tab.evaluate(() => {
        const one = document.querySelector(".skip, .unseen");
        return one !== null && getComputedStyle(one).position === "absolute";
      });
      if (!styled) faults.push("the style sheet is not in force");
    }
    await tab.evaluate(axe);
    const found = await tab.evaluate(() => window.axe.run(document, { preload: false, rules: { "target-size": { enabled: true } } }));
    const violations = found.violations.map((one) => `${one.id}: ${one.help} (${one.nodes.slice(0, 3).map((node) => node.target).join(", ")})`);
    say(`${page}: accessible in ${colorScheme}`, violations);
    say(`${page}: no faults in ${colorScheme}`, faults);
    await context.close();
  }
}

try {
  for (const page of recipes) await switches(page);
  for (const page of recipes.slice(0, 3)) await without_scripts(page);
  for (const page of [...recipes.slice(0, 4), ...others]) await looks(page);
} finally {
  await browser.close();
  server.close();
}
console.log(JSON.stringify(results));
