// Searches archives in Chromium: [{what, faults}], and what a search costs: {results, weights}.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { launch, serve, tally } from "./chromium.mjs";

const [packages, path, file] = process.argv.slice(2);
const { archives, weighed } = JSON.parse(readFileSync(file, "utf8"));
const { results, say, faults } = tally();
const browser = await launch(packages, path);

// The titles found, when they have stood still.
async function answer(tab) {
  await tab.waitForFunction(() => document.getElementById("answer").textContent !== "");
  return tab.locator("#found a").allInnerTexts();
}

async function ask(tab, words) {
  await tab.locator("#asked").fill("");
  await tab.waitForFunction(() => document.getElementById("answer").textContent === "");
  await tab.locator("#asked").pressSequentially(words);
  await tab.waitForTimeout(60);
  return answer(tab);
}

// From disk, as the archive must work there too.
async function finds({ root, asked }) {
  const context = await browser.newContext();
  const tab = await context.newPage();
  await tab.goto(pathToFileURL(join(root, "search/index.html")).href);
  for (const { words, title, first } of asked) {
    const { found, expect } = faults();
    const titles = await ask(tab, words);
    expect(first ? titles[0] === title : titles.includes(title), `${title} is not found${first ? " first" : ""}: ${titles.join(", ")}`);
    say(`${words} finds ${title}`, found);
  }
  const { found, expect } = faults();
  expect((await ask(tab, "zzyzx qwertyuiop")).length === 0, "something is found");
  expect((await tab.getByRole("status").innerText()) === "Nothing found.", "nobody says that nothing is found");
  say("what is not there is not found", found);
  await context.close();
}

async function by_keyboard(root) {
  const { found, expect } = faults();
  const { host, close } = await serve(root);
  const context = await browser.newContext();
  const tab = await context.newPage();
  await tab.goto(`${host}/`);
  await tab.getByRole("link", { name: "Search" }).focus();
  await tab.keyboard.press("Enter");
  await tab.waitForURL("**/search/**");
  const field = tab.getByRole("searchbox");
  expect(await field.evaluate((one) => one === document.activeElement), "the field has no focus");
  await tab.keyboard.type("tart");
  const titles = await answer(tab);
  expect(/^\d+ recipes?$/.test(await tab.getByRole("status").innerText()), "the count is not told");
  await tab.keyboard.press("ArrowDown");
  await tab.keyboard.press("ArrowDown");
  const second = await tab.evaluate(() => document.activeElement.textContent);
  expect(second === titles[1], `two arrows lead to ${second}, not ${titles[1]}`);
  const ring = await tab.evaluate(() => getComputedStyle(document.activeElement).outlineStyle);
  expect(ring !== "none", "the focus is not seen");
  await tab.keyboard.press("ArrowUp");
  await tab.keyboard.press("ArrowUp");
  expect(await field.evaluate((one) => one === document.activeElement), "arrows do not lead back to the field");
  await tab.keyboard.press("Enter");
  await tab.waitForURL((url) => !url.pathname.startsWith("/search"));
  expect((await tab.getByRole("heading", { level: 1 }).innerText()) === titles[0], "enter does not lead to the first");
  say("by keyboard alone", found);
  await context.close();
  close();
}

// Bytes that have come when the first answer is shown, from the empty page on: of the scripts of the search and its index.
async function weigh(root, words, delay) {
  const { host, close } = await serve(root);
  const context = await browser.newContext();
  await context.addInitScript(() => {
    document.addEventListener("DOMContentLoaded", () => {
      const own = (entry) => /\/search(\.js|\/[^/]+\.js)$/.test(entry.name);
      new MutationObserver(() => {
        const come = performance.getEntriesByType("resource").filter(own);
        window.first ??= { bytes: come.reduce((sum, one) => sum + one.encodedBodySize, 0), files: come.length };
      }).observe(document.getElementById("answer"), { childList: true });
    });
  });
  const tab = await context.newPage();
  await tab.goto(`${host}/search/`);
  if (delay) await tab.keyboard.type(words, { delay });
  else await tab.locator("#asked").fill(words);
  await tab.waitForFunction(() => window.first);
  await tab.waitForLoadState("networkidle");
  const found = await tab.locator("#found a").count();
  const first = await tab.evaluate(() => window.first);
  await context.close();
  close();
  return { words: delay ? `${words}, letter by letter` : words, found, ...first };
}

const weights = [];
try {
  for (const archive of archives) await finds(archive);
  await by_keyboard(archives[0].root);
  for (const words of weighed.asked) {
    for (const delay of [0, 120]) weights.push(await weigh(weighed.root, words, delay));
  }
} finally {
  await browser.close();
}
console.log(JSON.stringify({ results, weights }));
