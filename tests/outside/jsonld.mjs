// Checks structured data: {expanded: [fault], typed: [fault], refused: [name]} for a file of [{name, type, data}].
// Expansion is by `jsonld`, types and properties by the types of `schema-dts` with the TypeScript compiler.
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const [packages, file] = process.argv.slice(2);
const load = (path) => import(pathToFileURL(join(packages, path)).href);
const { default: jsonld } = await load("jsonld/lib/jsonld.js");
const ts = createRequire(join(packages, "x.cjs"))("typescript");
const documents = JSON.parse(readFileSync(file, "utf8"));

// The vocabulary's context in short: every term is a name of the vocabulary. No document is fetched.
const VOCABULARY = "https://schema.org/";
async function documentLoader(url) {
  if (url !== "https://schema.org" && url !== VOCABULARY) throw new Error(`unknown context ${url}`);
  return { contextUrl: null, documentUrl: url, document: { "@context": { "@vocab": VOCABULARY } } };
}

function faultsOf(node, path, faults) {
  if (Array.isArray(node)) return node.forEach((one, at) => faultsOf(one, `${path}[${at}]`, faults));
  if (node === null || typeof node !== "object" || "@value" in node) return;
  if (!("@type" in node) && !("@list" in node)) faults.push(`${path} has no @type`);
  for (const [key, value] of Object.entries(node)) {
    if (key.startsWith("@")) continue;
    if (!key.startsWith(VOCABULARY)) faults.push(`${path}: ${key} is not of the vocabulary`);
    faultsOf(value, `${path}.${key.slice(VOCABULARY.length)}`, faults);
  }
}

async function expanded({ name, data }) {
  const faults = [];
  const nodes = await jsonld.expand(data, { documentLoader, safe: true });
  if (nodes.length !== 1) faults.push(`${nodes.length} nodes instead of one`);
  faultsOf(nodes, "", faults);
  return faults.map((fault) => `${name}: ${fault}`);
}

// One constant a document, on a line of its own: the compiler refuses a property that its type does not have, and a
// value that the property does not take.
function typed() {
  const lines = documents.map(
    ({ type, data }, at) => `export const d${at}: S.WithContext<S.${type}> = ${JSON.stringify(data)};`,
  );
  const text = ['import type * as S from "schema-dts";', ...lines].join("\n");
  const path = join(packages, "..", "documents.ts");
  const options = {
    strict: true, noEmit: true, skipLibCheck: true, types: [], module: ts.ModuleKind.ESNext,
    moduleResolution: ts.ModuleResolutionKind.Bundler, target: ts.ScriptTarget.ES2022,
  };
  const host = ts.createCompilerHost(options);
  const { getSourceFile, fileExists, readFile } = host;
  host.getSourceFile = (name, ...rest) =>
    name === path ? ts.createSourceFile(path, text, options.target) : getSourceFile.call(host, name, ...rest);
  host.fileExists = (name) => name === path || fileExists.call(host, name);
  host.readFile = (name) => (name === path ? text : readFile.call(host, name));
  const found = ts.getPreEmitDiagnostics(ts.createProgram([path], options, host));
  return found.map((one) => {
    const line = one.file?.fileName === path ? one.file.getLineAndCharacterOfPosition(one.start).line : 0;
    const message = ts.flattenDiagnosticMessageText(one.messageText, " ").slice(0, 300);
    return { name: line > 0 ? documents[line - 1].name : "compiler", message };
  });
}

const faults = (await Promise.all(documents.map(expanded))).flat();
console.log(JSON.stringify({ expanded: faults, typed: typed() }));
