// Holds the JSON Schemas of assets against our files and against our own readers.
// Three questions a contract: does the schema compile strictly, does ajv-cli accept every shipped
// file, and do ajv and our reader give the same verdict on every mutant of every shipped file.
// Where a reader rightly knows more than a schema can say, contracts.json names the place, the
// change and the reason; an entry that excuses nothing fails. The other way is never excused:
// what the schema refuses, the reader must refuse.
"use strict";

const fs = require("node:fs");
const path = require("node:path");
const { spawnSync } = require("node:child_process");
const { createRequire } = require("node:module");
const { writeEachKind } = require("./each_kind.cjs");
const { mutants } = require("./mutants.cjs");

const root = process.env.QB_ROOT;
const build = process.env.QB_BUILD;
const work = process.env.QB_WORK;
const fromNode = createRequire(path.join(process.env.QB_NODE, "package.json"));
const Ajv = fromNode("ajv/dist/2020");
const formats = fromNode("ajv-formats");

const deep = process.env.QB_DEEP === "1";

const FILES_A_CALL = 400;
const SHOWN = 6;
let passed = 0;
let failed = 0;

// Counts one test; `faults` are lines that say what is wrong.
function test(name, faults) {
  if (faults.length === 0) {
    passed += 1;
    return;
  }
  failed += 1;
  for (const fault of faults.slice(0, SHOWN)) console.log(`FAIL ${name}: ${fault}`);
  if (faults.length > SHOWN) console.log(`FAIL ${name}: and ${faults.length - SHOWN} more`);
}

function ajvCli(...words) {
  const program = path.join(process.env.QB_NODE, "node_modules", ".bin", "ajv");
  const common = ["--spec=draft2020", "--strict=true", "-c", "ajv-formats"];
  const ran = spawnSync(program, [words[0], ...common, ...words.slice(1)], {
    cwd: process.env.QB_NODE,
    encoding: "utf8",
    maxBuffer: 1 << 26,
  });
  const said = ran.stderr + ran.stdout;
  return { faults: ran.status === 0 ? [] : [said.trim().replace(/\s+/g, " ")], said };
}

// What ajv-cli says against each of the samples: it is started once, which takes longer than they.
function ajvOnSamples(contract, schema, samples) {
  const given = samples.flatMap((one) => ["-d", one]);
  const { faults, said } = ajvCli("validate", "-s", schema, ...given);
  const lines = new Set(said.split("\n"));
  for (const sample of samples) {
    const name = `${contract.name} ${path.basename(sample)}`;
    test(name, lines.has(`${sample} valid`) ? [] : [`not called valid; ${faults.join("")}`]);
  }
}

// The files of a pattern, or of some, with one star in its last part, in order.
function filesOf(pattern) {
  if (Array.isArray(pattern)) return pattern.flatMap(filesOf);
  const full = path.resolve(root, pattern.replace("$WORK", work));
  const [before, after] = path.basename(full).split("*");
  const folder = path.dirname(full);
  if (!fs.existsSync(folder)) return [];
  return fs.readdirSync(folder).sort()
    .filter((name) => name.startsWith(before) && name.endsWith(after))
    .map((name) => path.join(folder, name));
}

// Our reader's verdicts on files: a map from file to {good, said}.
function readerVerdicts(words, files) {
  const verdicts = new Map();
  const faults = [];
  for (let i = 0; i < files.length; i += FILES_A_CALL) {
    const some = files.slice(i, i + FILES_A_CALL);
    const ran = spawnSync(path.join(build, words[0]), [...words.slice(1), ...some], {
      encoding: "utf8",
      maxBuffer: 1 << 26,
    });
    const asked = new Set(some);
    let refused = 0;
    for (const line of (ran.stdout + "\n" + ran.stderr).split("\n")) {
      const file = line.split(": ", 1)[0];
      if (!asked.has(file)) continue;
      const good = line === file + ": ok";
      if (!good) refused += 1;
      verdicts.set(file, { good, said: line.slice(file.length + 2) });
    }
    const expected = refused > 0 ? 2 : 0;
    if (ran.status !== expected) {
      const end = ran.status ?? ran.signal ?? ran.error;
      faults.push(`${words.join(" ")} ended with ${end}, expected ${expected}`);
    }
  }
  for (const file of files) {
    if (!verdicts.has(file)) faults.push(`no verdict on ${path.basename(file)}`);
  }
  return { verdicts, faults };
}

// Whether a place is one of those that a path of contracts.json means: there `*` stands for one
// part and `**` for any number of them.
function fits(pattern, place) {
  const WILD = { "*": "[^/]+", "**": ".+" };
  const shape = pattern.split("/").map((part) => WILD[part] ?? part).join("/");
  return new RegExp(`^${shape}$`).test(place);
}

// Whether contracts.json says that the reader knows more here.
function excuse(contract, mutant) {
  return contract.beyond_schema.find((entry) => {
    return entry.changes.includes(mutant.change) && fits(entry.path, mutant.path);
  });
}

// Writes the mutants of one sample and returns them with their files and the schema's verdicts.
// What an earlier sample of the contract was asked in the same words is asked again in the deep
// tier only: the shipped protocols share most of their rules.
function writeMutants(contract, validate, sample, tried) {
  const stem = path.basename(sample, ".json");
  const folder = path.join(work, contract.name, stem);
  fs.mkdirSync(folder, { recursive: true });
  const document = JSON.parse(fs.readFileSync(sample, "utf8"));
  const all = [];
  for (const mutant of mutants(document)) {
    // A document inside a document is held by the contract that is its own.
    if ((contract.held_elsewhere ?? []).some((one) => fits(one, mutant.path))) continue;
    if (!deep && tried.has(mutant.asks)) continue;
    tried.add(mutant.asks);
    const file = path.join(folder, `${all.length}-${mutant.change}.json`);
    fs.writeFileSync(file, JSON.stringify(mutant.document));
    const schemaGood = validate(mutant.document);
    const why = (validate.errors ?? []).map((e) => `${e.instancePath} ${e.message}`).join("; ");
    all.push({ change: mutant.change, path: mutant.path, file, schemaGood, why });
  }
  return all;
}

// Why the two verdicts on a mutant are wrong together, or null when they agree or may differ.
function disagreement(contract, mutant, verdict, used) {
  if (verdict !== undefined && mutant.schemaGood === verdict.good) return null;
  const place = `${mutant.change} at ${mutant.path}`;
  if (verdict === undefined) return `${place}: our reader gave no verdict`;
  if (!mutant.schemaGood) {
    return `${place}: the schema refuses (${mutant.why.slice(0, 120)}), our reader accepts`;
  }
  const excused = excuse(contract, mutant);
  if (excused === undefined) return `${place}: the schema accepts, our reader says ${verdict.said}`;
  used.add(excused);
  return null;
}

function checkMutants(contract, validate, sample, used, tried) {
  const all = writeMutants(contract, validate, sample, tried);
  const { verdicts, faults } = readerVerdicts(contract.reader, all.map((one) => one.file));
  const name = `${contract.name} ${path.basename(sample)}`;
  test(`${name} reader answers`, faults);
  const kinds = new Map();
  for (const mutant of all) {
    if (!kinds.has(mutant.change)) kinds.set(mutant.change, []);
    const wrong = disagreement(contract, mutant, verdicts.get(mutant.file), used);
    if (wrong !== null) kinds.get(mutant.change).push(wrong);
  }
  for (const [change, wrong] of kinds) test(`${name} ${change}`, wrong);
  const refused = all.filter((one) => !one.schemaGood).length;
  console.log(`${name}: ${all.length} mutants, ${refused} refused by the schema`);
  test(`${name} mutants bite`, refused > 0 && refused < all.length ? [] : ["all or none refused"]);
}

function checkContract(contract) {
  const schema = path.join(root, contract.schema);
  if (!fs.existsSync(schema)) return test(contract.name, [`${contract.schema} is not there`]);
  const compiles = ajvCli("compile", "-s", schema).faults;
  test(`${contract.name} schema`, compiles);
  if (compiles.length > 0) return undefined;
  for (const [program, ...words] of contract.prepare ?? []) {
    const said = words.map((word) => word.replace("$WORK", work));
    const ran = spawnSync(path.join(build, program), said, { cwd: root, encoding: "utf8" });
    test(`${contract.name} prepared`, ran.status === 0 ? [] : [`${said.join(" ")}: ${ran.stderr}`]);
  }
  const samples = filesOf(contract.samples);
  test(`${contract.name} samples`, samples.length > 0 ? [] : [`no file is ${contract.samples}`]);
  if (samples.length === 0) return undefined;
  let toChange = samples;
  if (contract.one_of_each_kind) {
    toChange = [path.join(work, contract.name, "each-kind.json")];
    test(`${contract.name} kinds`, writeEachKind(toChange[0], samples, schema));
    samples.push(toChange[0]);
  }
  const ajv = new Ajv({ strict: true });
  formats(ajv);
  const validate = ajv.compile(JSON.parse(fs.readFileSync(schema, "utf8")));
  const used = new Set();
  ajvOnSamples(contract, schema, samples);
  const { verdicts, faults } = readerVerdicts(contract.reader, samples);
  const refused = samples.filter((one) => verdicts.has(one) && !verdicts.get(one).good);
  const lines = refused.map((one) => `${path.basename(one)}: ${verdicts.get(one).said}`);
  test(`${contract.name} reader accepts what is shipped`, [...faults, ...lines]);
  const tried = new Set();
  for (const sample of toChange) checkMutants(contract, validate, sample, used, tried);
  const idle = contract.beyond_schema.filter((entry) => !used.has(entry));
  test(`${contract.name} excuses`, idle.map((one) => `${one.path} excuses nothing: take it out`));
  return undefined;
}

function main() {
  const { contracts } = JSON.parse(fs.readFileSync(path.join(__dirname, "contracts.json"), "utf8"));
  for (const contract of contracts) checkContract(contract);
  const named = contracts.map((contract) => path.join(root, contract.schema));
  const without = filesOf("assets/schema/*.schema.json").filter((file) => !named.includes(file));
  test("every schema has a contract", without.map((file) => `${path.basename(file)} has none`));
  console.log(`outside-ajv: ${passed} passed, ${failed} failed`);
  process.exit(failed > 0 ? 1 : 0);
}

main();
