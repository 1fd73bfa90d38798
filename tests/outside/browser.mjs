// Opens the archive from disk in Chromium and prints what it sees: [{what, faults}].
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { LOST, launch, package_of, serve, tally } from "./chromium.mjs";

const [packages, root, browser_path, ...pages] = process.argv.slice(2);
const axe = package_of(packages, "axe-core").source;

const WIDTHS = [320, 390, 1280, 1600];
const recipes = pages.filter((page) => page.startsWith("recipe:")).map((page) => page.slice(7));
const others = pages.filter((page) => !page.startsWith("recipe:"));
const { host, close } = await serve(root);
// Pages open from disk; the one for addresses that do not exist needs a host that gives it for them.
const address = (page) => (page === LOST ? `${host}/no/such/page/` : pathToFileURL(join(root, page)).href);
const { results, say } = tally();
const browser = await launch(packages, browser_path);

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
  await tab.exposeFunction("violated", (what) => faults.push(`against the policy: ${what}`));
  await tab.addInitScript(() => {
    window.shifted = 0;
    new PerformanceObserver((list) => list.getEntries().forEach((one) => (window.shifted += one.value))).observe({ type: "layout-shift", buffered: true });
    document.addEventListener("securitypolicyviolation", (one) => window.violated(`${one.effectiveDirective} ${one.blockedURI}`));
  });
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
// What a step says that it takes is what the line of the table says, where it is no part of it.
const agree = (tab) =>
  tab.$$eval(".component", (parts) =>
    parts.every((part) => {
      const said = (row) => ["weight", "measure"].map((name) => row.querySelector(`.${name} > span`).innerText).join();
      const lines = [...part.querySelectorAll("table.amounts tbody tr")].map(said);
      return [...part.querySelectorAll(".uses li:not(.part)")].every((use) => !use.querySelector(".weight") || lines.includes(said(use)));
    }),
  );
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
    expect(await agree(tab), `batch ${label}: a step says another amount than its line`);
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

async function violations(tab) {
  await tab.evaluate(axe);
  const found = await tab.evaluate(() => window.axe.run(document, { preload: false, rules: { "target-size": { enabled: true } } }));
  return found.violations.map((one) => `${one.id}: ${one.help} (${one.nodes.slice(0, 3).map((node) => node.target).join(", ")})`);
}

// What comes when a reader asks for it: the bench view with a timer running, answers of the search.
async function states(recipe) {
  for (const colorScheme of ["light", "dark"]) {
    for (const width of [390, 1280]) {
      const context = await browser.newContext({ colorScheme, viewport: { width, height: 900 } });
      const { tab, faults } = await open(context, recipe);
      await tab.getByRole("button", { name: "At the bench" }).click();
      await tab.getByRole("checkbox").first().check();
      await tab.locator(".timer").first().click();
      say(`${recipe}: at the bench accessible in ${colorScheme} at ${width}`, [...(await violations(tab)), ...faults]);
      await context.close();
    }
    const context = await browser.newContext({ colorScheme });
    const { tab, faults } = await open(context, "search/index.html");
    await tab.keyboard.type("butter");
    await tab.locator("#found a").first().waitFor();
    say(`answers of the search accessible in ${colorScheme}`, [...(await violations(tab)), ...faults]);
    await context.close();
  }
}

// From the first page by its links through every kind of page, from disk.
async function walk() {
  const context = await browser.newContext();
  const { tab, faults } = await open(context, "index.html");
  const follow = async (links, wanted) => {
    const link = links.first();
    const text = (await link.innerText()).trim();
    await link.click();
    await tab.waitForLoadState("load");
    const heading = await tab.getByRole("heading", { level: 1 }).innerText();
    if (wanted !== undefined && heading.toLowerCase() !== (wanted ?? text).toLowerCase()) faults.push(`${text} leads to ${heading}`);
    if (!tab.url().startsWith("file:")) faults.push(`${text} leads off the disk to ${tab.url()}`);
  };
  const menu = (name) => tab.getByRole("navigation", { name: "Pages" }).getByRole("link", { name, exact: true });
  await follow(tab.locator(".entry-title a"), null);
  await follow(tab.locator(".tags a"), null);
  await follow(tab.locator(".entry-title a"), null);
  await follow(menu("Ingredients"), null);
  await follow(tab.locator(".index a"), null);
  await follow(tab.locator(".users ul a"));
  if (!new URL(tab.url()).hash) faults.push("an amount does not lead to its component");
  await follow(menu("All recipes"), null);
  await follow(tab.locator(".also a"));
  await follow(menu("Corrections"), null);
  await follow(tab.locator(".corrections a"), null);
  await follow(menu("Tags"), null);
  await follow(tab.locator(".house a"), "Tern Quay");
  say("every kind of page is reached by links, from disk", faults);
  await context.close();
}

// Width, faults, movement and accessibility, in light and in dark.
async function looks(page) {
  for (const colorScheme of ["light", "dark"]) {
    const context = await browser.newContext({ colorScheme, reducedMotion: "reduce" });
    const { tab, faults } = await open(context, page);
    await tab.waitForTimeout(100);
    const shifted = await tab.evaluate(() => window.shifted);
    if (shifted !== 0) faults.push(`the layout shifts by ${shifted}`);
    const moving = await tab.evaluate(() => document.getAnimations().length || getComputedStyle(document.documentElement).scrollBehavior !== "auto");
    if (moving) faults.push("it moves although less motion is asked for");
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
    say(`${page}: accessible in ${colorScheme}`, await violations(tab));
    say(`${page}: no faults in ${colorScheme}`, faults);
    await context.close();
  }
}

try {
  for (const page of recipes) await switches(page);
  for (const page of recipes.slice(0, 3)) await without_scripts(page);
  for (const page of [...recipes.slice(0, 4), ...others]) await looks(page);
  await states(recipes[0]);
  await walk();
} finally {
  await browser.close();
  close();
}
console.log(JSON.stringify(results));
