// Scores of pages by Lighthouse, served from a folder: [{page, scores, wanting}].
import { createServer } from "node:net";
import { pathToFileURL } from "node:url";
import { join } from "node:path";
import { launch, serve } from "./chromium.mjs";

const [packages, root, path, ...pages] = process.argv.slice(2);
const { default: lighthouse } = await import(pathToFileURL(join(packages, "lighthouse/core/index.js")).href);

// A port that nobody listens at.
const port = await new Promise((resolve) => {
  const probe = createServer().listen(0, "127.0.0.1", () => {
    const found = probe.address().port;
    probe.close(() => resolve(found));
  });
});
const { host, close } = await serve(root);
const browser = await launch(packages, path, `--remote-debugging-port=${port}`);
const results = [];
try {
  for (const page of pages) {
    const { lhr } = await lighthouse(`${host}/${page}`, { port, output: "json", logLevel: "silent" });
    const categories = Object.values(lhr.categories);
    const scores = Object.fromEntries(categories.map(({ id, score }) => [id, Math.round((score ?? 0) * 100)]));
    const weak = categories.flatMap(({ auditRefs }) => auditRefs).filter(({ weight }) => weight > 0).map(({ id }) => lhr.audits[id]);
    const wanting = weak.filter(({ score }) => score !== null && score < 0.9).map(({ id, displayValue }) => `${id} ${displayValue ?? ""}`.trim());
    results.push({ page, scores, wanting });
  }
} finally {
  await browser.close();
  close();
}
console.log(JSON.stringify(results));
