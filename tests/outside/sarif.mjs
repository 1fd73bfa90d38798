// Checks a SARIF log against the 2.1.0 schema that `@microsoft/jest-sarif` carries, with `ajv`: prints a list of faults.
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { join } from "node:path";

const [packages, file] = process.argv.slice(2);
const require = createRequire(join(packages, "x.cjs"));
const Ajv = require("ajv");
const schema = require("@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json");

const ajv = new Ajv({ allErrors: true, schemaId: "auto", unknownFormats: "ignore", logger: false });
ajv.addMetaSchema(require("ajv/lib/refs/json-schema-draft-04.json"));
const validate = ajv.compile(schema);
validate(JSON.parse(readFileSync(file, "utf8")));
console.log(JSON.stringify((validate.errors ?? []).map((fault) => `${fault.dataPath} ${fault.message}`)));
