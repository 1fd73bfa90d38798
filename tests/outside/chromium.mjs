// What the checks in a browser share: Chromium by `playwright-core`, and a host for a folder.
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { createRequire } from "node:module";
import { join } from "node:path";

export const LOST = "404.html";
export const FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--disable-background-networking", "--no-first-run"];

// A package of the checks, whichever way it is written.
export const package_of = (packages, name) => createRequire(join(packages, "x.cjs"))(name);

export function launch(packages, path, ...flags) {
  return package_of(packages, "playwright-core").chromium.launch({ executablePath: path, args: [...FLAGS, ...flags] });
}

const TYPES = { css: "text/css", js: "text/javascript", svg: "image/svg+xml", xml: "application/xml", txt: "text/plain" };

// Serves a folder; `seen` hears the path and the bytes of each answer.
export async function serve(root, seen = () => {}) {
  const server = createServer(async (request, response) => {
    const { pathname } = new URL(request.url, "http://host");
    const type = TYPES[pathname.split(".").pop()] ?? "text/html";
    try {
      const body = await readFile(join(root, pathname.endsWith("/") ? `${pathname}index.html` : pathname));
      seen(pathname, body);
      response.writeHead(200, { "content-type": type }).end(body);
    } catch {
      response.writeHead(404, { "content-type": "text/html" }).end(await readFile(join(root, LOST)));
    }
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  return { host: `http://127.0.0.1:${server.address().port}`, close: () => server.close() };
}

// Results as the caller wants them: [{what, faults}].
export function tally() {
  const results = [];
  const say = (what, faults) => results.push({ what, faults });
  // A list of faults, and a way to add one where something does not hold.
  const faults = () => {
    const found = [];
    return { found, expect: (ok, what) => ok || found.push(what) };
  };
  return { results, say, faults };
}
