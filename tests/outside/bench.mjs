// The recipe at the bench, the timetable and what is remembered, in Chromium: [{what, faults}].
import { launch, serve, tally } from "./chromium.mjs";

const [packages, root, path, given] = process.argv.slice(2);
const recipes = JSON.parse(given);
const { results, say, faults } = tally();
const { host, close } = await serve(root);
const browser = await launch(packages, path);
const of = (slug) => `${host}/${slug}/`;
const size = (tab) => tab.evaluate(() => parseFloat(getComputedStyle(document.documentElement).fontSize));

// The screen's lock by a stand-in that keeps a record; the clock by hand.
async function at_the_bench(slug, viewport) {
  const context = await browser.newContext({ viewport });
  await context.addInitScript(() => {
    window.locks = [];
    const held = { release: async () => window.locks.push("released") };
    const request = async (kind) => (window.locks.push(kind), held);
    Object.defineProperty(navigator, "wakeLock", { value: { request } });
  });
  const tab = await context.newPage();
  await tab.clock.install();
  await tab.goto(of(slug));
  return { context, tab, button: tab.getByRole("button", { name: "At the bench" }) };
}

async function view(slug, viewport) {
  const { found, expect } = faults();
  const { context, tab, button } = await at_the_bench(slug, viewport);
  const small = await size(tab);
  expect((await tab.getByRole("checkbox").all()).length === 0, "boxes to tick are seen before");
  await button.click();
  expect((await size(tab)) >= small * 1.25, `type of ${await size(tab)} px after ${small} px`);
  expect(await tab.getByRole("navigation", { name: "Pages" }).isHidden(), "the menu is seen");
  expect((await button.getAttribute("aria-pressed")) === "true", "the button does not say that it is pressed");
  expect((await tab.evaluate(() => window.locks.join())) === "screen", "no lock of the screen is asked for");
  const over = await tab.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  expect(over <= 0, `${over} px too wide`);
  // Sentences stand in lines, not in a column of letters.
  for (const text of await tab.locator(".do > p").all()) {
    const { width } = await text.boundingBox();
    expect(width >= Math.min(viewport.width, 900) * 0.5, `a step's text is ${Math.round(width)} px wide`);
  }
  const targets = [...(await tab.locator(".tick").all()), ...(await tab.locator(".timer").all())];
  expect(targets.length > 0, "nothing to tick");
  for (const target of targets) {
    const { width, height } = await target.boundingBox();
    expect(width >= 44 && height >= 44, `a target of ${width} × ${height} px`);
  }
  const boxes = await tab.getByRole("checkbox").all();
  await boxes[0].focus();
  await tab.keyboard.press("Space");
  await boxes[1].check();
  await tab.reload();
  await button.click();
  const ticked = await Promise.all((await tab.getByRole("checkbox").all()).map((box) => box.isChecked()));
  expect(ticked[0] && ticked[1] && !ticked.slice(2).includes(true), `after a reload: ${ticked}`);
  await tab.evaluate(() => (window.locks.length = 0));
  await tab.keyboard.press("Escape");
  expect(await tab.getByRole("navigation", { name: "Pages" }).isVisible(), "Escape does not leave");
  expect((await button.getAttribute("aria-pressed")) === "false", "after Escape the button says that it is pressed");
  expect(await button.evaluate((one) => one === document.activeElement), "the focus is lost after Escape");
  expect((await tab.evaluate(() => window.locks.join())) === "released", "the lock of the screen is not given back");
  say(`${slug}: at the bench at ${viewport.width} px`, found);
  await context.close();
}

async function timer(slug) {
  const { found, expect } = faults();
  const { context, tab, button } = await at_the_bench(slug, { width: 390, height: 844 });
  await button.click();
  const one = tab.locator(".timer").first();
  const seconds = Number(await one.getAttribute("data-seconds"));
  const label = await one.innerText();
  const time = await tab.locator("dd").filter({ has: one }).first().innerText();
  // Of a range it rings at the shorter end, when the first look is due.
  const said = minutes(time.replace(/(\d+)[–-]\d+/g, "$1").replace(label, "")) * 60;
  expect(said === seconds, `${time} is a timer of ${seconds} s`);
  const left = (text) => (/^(?:(\d+):)?(\d+):(\d\d) left$/.exec(text) ?? []).slice(1).reduce((sum, part) => sum * 60 + Number(part ?? 0), 0);
  const status = tab.getByRole("status");
  await one.click();
  const first = left(await one.innerText());
  await tab.clock.runFor(60_000);
  const later = left(await one.innerText());
  expect(first === seconds && later === seconds - 60, `${seconds} s, then ${first} s left, then ${later} s`);
  await tab.clock.runFor((seconds - 61) * 1000);
  expect((await status.innerText()) === "", "it is up too early");
  await tab.clock.runFor(2_000);
  expect((await one.innerText()) === "Time is up" && (await status.innerText()).startsWith("Time is up"), "nothing says that it is up");
  await one.click();
  await one.click();
  expect((await one.innerText()) === label, "a second press does not stop it");
  say(`${slug}: a timer of ${seconds} s`, found);
  await context.close();
}

// Minutes of `about 1 h 40 min`.
const minutes = (text) => Number(/(\d+) days?/.exec(text)?.[1] ?? 0) * 1440 + Number(/(\d+) h/.exec(text)?.[1] ?? 0) * 60 + Number(/(\d+) min/.exec(text)?.[1] ?? 0);

async function timetable({ slug, hands_on, in_the_oven, waiting }) {
  const { found, expect } = faults();
  const context = await browser.newContext({ javaScriptEnabled: true, viewport: { width: 1280, height: 900 } });
  const tab = await context.newPage();
  await tab.goto(of(slug));
  const rows = await tab.$$eval(".timetable li", (items) =>
    items.map((item) => {
      const text = item.querySelector(".aside").textContent;
      const blocks = [...item.querySelectorAll("rect")].map((one) => [one.getAttribute("class"), Number(one.getAttribute("x")), Number(one.getAttribute("width"))]);
      return { text, blocks };
    }),
  );
  const said = (word) => rows.reduce((sum, { text }) => sum + minutes(new RegExp(`${word} ([^A-Z]*)`).exec(text)?.[1] ?? ""), 0);
  expect(said("Hands-on") === hands_on, `hands-on ${said("Hands-on")} min, the recipe's steps ${hands_on}`);
  expect(said("In the oven") === in_the_oven, `in the oven ${said("In the oven")} min, the recipe's steps ${in_the_oven}`);
  expect(said("Waiting") === waiting, `waiting ${said("Waiting")} min, the recipe's steps ${waiting}`);
  // Above, a sum is said to five minutes (`about`) where a step's time is a range or it is long.
  const fact = async (name) => {
    const found = tab.locator(".facts > div").filter({ has: tab.getByText(name, { exact: true }) }).locator("dd");
    return (await found.count()) > 0 ? found.innerText() : "";
  };
  for (const [name, sum] of [["Hands-on", hands_on], ["In the oven", in_the_oven], ["Waiting", waiting]]) {
    const text = await fact(name);
    const off = Math.abs(minutes(text) - sum);
    expect(off <= (text.startsWith("about") ? 5 : 0), `${name} is ${text}, the drawing ${sum} min`);
  }
  // One pair of hands: all work is done one after the other; nothing takes longer than everything in a row.
  const whole = minutes(await fact("Start to finish"));
  const sum = hands_on + in_the_oven + waiting;
  expect(whole >= hands_on && whole <= sum + 5, `start to finish ${whole} min, of ${sum} min in a row and ${hands_on} min of work`);
  const drawn = (kind) => rows.flatMap(({ blocks }) => blocks).filter(([of]) => of === kind).sort((one, other) => one[1] - other[1]);
  // Each block is drawn to a thousandth of the whole, and three of them at least.
  for (const kind of ["hands-on", "in-the-oven"]) {
    const blocks = drawn(kind);
    expect(blocks.every(([, x], at) => at === 0 || x + 4 >= blocks[at - 1][1] + blocks[at - 1][2]), `two stretches of ${kind} at one time`);
  }
  const share = (hands_on / whole) * 1000;
  const width = drawn("hands-on").reduce((sum, [, , width]) => sum + width, 0);
  const most = 4 * rows.flatMap(({ blocks }) => blocks).length + 1000 * (5 / whole);
  expect(Math.abs(width - share) <= most, `${width} thousandths are drawn hands-on, not ${share}`);
  const names = await tab.locator(".timetable").getByRole("img").evaluateAll((all) => all.map((one) => one.getAttribute("aria-label")));
  expect(names.length === rows.length, `${names.length} drawings with a name for ${rows.length} rows`);
  const spans = names.map((name) => /^From (.+) to (.+) after the start$/.exec(name ?? "") ?? ["", "", ""]);
  expect(spans.every(([, from, to]) => from !== "" && minutes(from) <= minutes(to)) && spans.some(([, from]) => minutes(from) === 0), `they say ${names.join("; ")}`);
  say(`${slug}: timetable`, found);
  await context.close();
}

async function cover(slug) {
  const { found, expect } = faults();
  const context = await browser.newContext();
  const tab = await context.newPage();
  await tab.goto(of(slug));
  const drawing = tab.getByRole("img", { name: "The recipe in section" });
  if (await drawing.count()) {
    const told = await drawing.locator("desc").evaluate((one) => one.textContent);
    const shares = (await tab.locator(".legend li").allInnerTexts()).map((text) => text.trim().replace(/\s+/g, " "));
    expect(shares.length > 0 && shares.every((share) => told.includes(share)), `it says ${told}, the legend ${shares.join("; ")}`);
    const fills = (all) => all.map((one) => one.getAttribute("fill"));
    const drawn = await drawing.locator("path[fill]").evaluateAll(fills);
    const keyed = await tab.locator(".legend rect").evaluateAll(fills);
    expect(JSON.stringify(drawn) === JSON.stringify(keyed), `drawn ${drawn}, in the legend ${keyed}`);
  } else {
    expect(await tab.locator(".photo img").count(), "neither a photo nor a drawing");
  }
  say(`${slug}: cover`, found);
  await context.close();
}

async function remembered([one, other]) {
  const { found, expect } = faults();
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
  const tab = await context.newPage();
  await tab.goto(of(one));
  await tab.getByLabel("Cups", { exact: true }).check({ force: true });
  await tab.getByLabel("three", { exact: true }).check({ force: true });
  await tab.goto(of(other));
  expect(await tab.getByLabel("Cups", { exact: true }).isChecked(), "Cups is not kept");
  expect(await tab.getByLabel("three", { exact: true }).isChecked(), "the batch is not kept");
  expect(await tab.getByText("Three batches.").isVisible(), "nothing says that these are three batches");
  await tab.emulateMedia({ media: "print" });
  expect(await tab.getByText("Three batches.").isVisible(), "on paper nothing says that these are three batches");
  expect(await tab.getByRole("button", { name: "At the bench" }).isHidden(), "a button is printed");
  say("choices hold on other recipes and on paper", found);
  await context.close();
}

try {
  const timed = recipes.filter(({ hands_on }) => hands_on > 0);
  for (const { slug } of timed.slice(0, 2)) {
    for (const viewport of [{ width: 390, height: 844 }, { width: 1280, height: 900 }]) await view(slug, viewport);
    await timer(slug);
  }
  for (const recipe of timed) await timetable(recipe);
  for (const { slug } of recipes) await cover(slug);
  await remembered(recipes.map(({ slug }) => slug));
} finally {
  await browser.close();
  close();
}
console.log(JSON.stringify(results));
