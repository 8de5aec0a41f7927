// What validators nobody here wrote say of FHIR files: the official JSON Schema of R4, resource by
// resource and as a whole, and the `fhir` package; and of units, a UCUM checker.
// Usage: node validate.cjs < list of paths, one a line; answers a JSON object a line.
"use strict";

const fs = require("node:fs");
const path = require("node:path");
const { createRequire } = require("node:module");

const fromNode = createRequire(path.join(process.env.QB_NODE, "package.json"));
const SchemaValidator = fromNode("@asymmetrik/fhir-json-schema-validator");
const { Fhir } = fromNode("fhir");
const { UcumLhcUtils } = fromNode("@lhncbc/ucum-lhc");

const schema = new SchemaValidator();
const fhir = new Fhir();
const ucum = UcumLhcUtils.getInstance();

// Each resource by itself, since faults of a whole bundle are told unreadably; then the whole.
function schemaFaults(bundle) {
  const out = [];
  for (const entry of bundle.entry ?? []) {
    const resource = entry.resource ?? {};
    for (const fault of schema.validate(resource))
      out.push(`${resource.resourceType}${fault.dataPath} ${fault.message}`);
  }
  if (out.length === 0 && schema.validate(bundle).length > 0) out.push("the whole bundle");
  return out;
}

// Its warnings are of value sets it does not carry; only errors count.
function packageFaults(text) {
  const said = fhir.validate(text, { errorOnUnexpected: true });
  const errors = said.messages.filter((one) => ["error", "fatal"].includes(one.severity));
  if (said.valid && errors.length === 0) return [];
  return ["not valid", ...errors.map((one) => `${one.location}: ${one.message}`)];
}

// Every unit that claims UCUM's system must be one of UCUM.
function unitFaults(value, out = []) {
  if (value === null || typeof value !== "object") return out;
  if (value.system === "http://unitsofmeasure.org" && value.code !== undefined) {
    const said = ucum.validateUnitString(String(value.code));
    if (said.status !== "valid") out.push(`${value.code}: ${said.status}`);
  }
  for (const inner of Object.values(value)) unitFaults(inner, out);
  return out;
}

function guarded(check) {
  try {
    return check();
  } catch (error) {
    return [`the reader stopped: ${error.message}`];
  }
}

for (const file of fs.readFileSync(0, "utf8").split("\n").filter(Boolean)) {
  const text = fs.readFileSync(file, "utf8");
  const bundle = JSON.parse(text);
  console.log(JSON.stringify({
    file,
    schema: guarded(() => schemaFaults(bundle)),
    package: guarded(() => packageFaults(text)),
    ucum: guarded(() => unitFaults(bundle)),
  }));
}
