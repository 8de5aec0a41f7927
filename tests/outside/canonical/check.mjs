// Are our logs byte for byte what npm's `canonicalize` (RFC 8785) makes of them, hashes too?
// "The plain dump is the canonical form" holds only while keys are ASCII and numbers whole; both
// are looked for. Usage: node check.mjs LOG...
import fs from "node:fs";
import path from "node:path";
import { createHash } from "node:crypto";
import { pathToFileURL } from "node:url";

const modules = path.join(process.env.QB_NODE, "node_modules");
const about = JSON.parse(fs.readFileSync(path.join(modules, "canonicalize", "package.json")));
const entry = about.exports?.["."] ?? about.main;
const where = typeof entry === "string" ? entry : (entry.import?.default ?? entry.import);
const { default: canonicalize } = await import(
  pathToFileURL(path.join(modules, "canonicalize", where)).href
);

let passed = 0;
let failed = 0;
function test(good, what) {
  if (good) passed += 1;
  else failed += 1;
  if (!good) console.log(`FAIL ${what}`);
}

const sha256 = (text) => createHash("sha256").update(text, "utf8").digest("hex");

// The first place whose key is not ASCII or whose number is not a safe whole one, or null.
function plainBreach(value, place) {
  if (typeof value === "number") return Number.isSafeInteger(value) ? null : place;
  if (value === null || typeof value !== "object") return null;
  for (const [key, inner] of Object.entries(value)) {
    if (!/^[\x20-\x7e]+$/.test(key)) return `${place}.${key}`;
    const breach = plainBreach(inner, `${place}.${key}`);
    if (breach !== null) return breach;
  }
  return null;
}

// The first event whose hash is not that of its canonical form after the one before, or null.
function brokenLink(log) {
  let before = "0".repeat(64);
  for (const { hash, ...body } of log.events) {
    if (sha256(`${before}\n${canonicalize(body)}`) !== hash) return body.seq;
    before = hash;
  }
  return log.head === before ? null : "head";
}

for (const file of process.argv.slice(2)) {
  const name = path.basename(file);
  const text = fs.readFileSync(file, "utf8");
  const log = JSON.parse(text);
  test(canonicalize(log) === text, `${name}: its bytes are not its canonical form`);
  test(plainBreach(log, "$") === null, `${name}: ${plainBreach(log, "$")} is not plain`);
  test(brokenLink(log) === null, `${name}: hash of event ${brokenLink(log)} does not fit`);
  if (log.version === 1) continue; // it has no hashes of its rules
  for (const rules of ["protocol", "profile"]) {
    const frozen = log.events.findLast((event) => event.data[rules]?.id !== undefined);
    const said = log.rules[rules].sha256;
    test(sha256(canonicalize(frozen.data[rules])) === said, `${name}: hash of the ${rules}`);
  }
}
// The check itself: a log written with a space, or with its keys in another order, is found.
const sample = fs.readFileSync(process.argv[2], "utf8");
const parsed = JSON.parse(sample);
const turned = JSON.stringify(Object.fromEntries(Object.entries(parsed).reverse()));
test(canonicalize(parsed) !== sample.replace(":", ": "), "a space more was not seen");
test(canonicalize(parsed) !== turned, "another order of keys was not seen");
console.log(`outside-canonical: ${passed} passed, ${failed} failed`);
process.exit(failed > 0 ? 1 : 0);
