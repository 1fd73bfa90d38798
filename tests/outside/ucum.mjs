// Prints what one of each UCUM unit is in grams or millilitres, by two packages: {package: {code: value}}.
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

const packages = process.argv[2];
const codes = { g: ["kg", "mg", "[oz_av]", "[lb_av]"], mL: process.argv.slice(3) };

const { ucum } = await import(pathToFileURL(join(packages, "@atomic-ehr/ucum/dist/index.js")).href);
const lhc = createRequire(join(packages, "x.cjs"))("@lhncbc/ucum-lhc").UcumLhcUtils.getInstance();

const ways = {
  "@atomic-ehr/ucum": (code, to) => ucum.convert(1, code, to),
  "@lhncbc/ucum-lhc": (code, to) => lhc.convertUnitTo(code, 1, to).toVal,
};
const answer = {};
for (const [name, convert] of Object.entries(ways)) {
  answer[name] = {};
  for (const [to, of] of Object.entries(codes)) for (const code of of) answer[name][code] = convert(code, to);
}
console.log(JSON.stringify(answer));
