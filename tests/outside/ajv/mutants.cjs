// Small changes of a JSON document, one at a time and everywhere, for asking two readers whether
// they agree about each. Systematic and without chance: the same document gives the same mutants.
"use strict";

const OTHER_TYPES = [null, true, 7, "x", [], {}];
const LONG = "é".repeat(390);

function typeOf(value) {
  if (value === null) return "null";
  return Array.isArray(value) ? "array" : typeof value;
}

// What may be put in the place of one value: [name of the change, new value].
function replacements(value) {
  const out = [];
  for (const other of OTHER_TYPES) {
    if (typeOf(other) !== typeOf(value)) out.push(["retype", other]);
  }
  if (Number.isInteger(value)) {
    out.push(["negative", -1], ["zero", 0], ["huge", 1e15], ["fraction", value + 0.5]);
    out.push(["next", value + 1]);
  }
  if (typeof value === "string") {
    out.push(["empty", ""], ["other-text", "zz-no-such"], ["long", LONG], ["control", "a\u0007b"]);
    out.push(["spaced", " " + value]);
  }
  if (typeof value === "boolean") out.push(["flip", !value]);
  if (Array.isArray(value)) {
    out.push(["emptied", []]);
    if (value.length > 0) {
      out.push(["shorter", value.slice(0, -1)], ["doubled", [...value, value[value.length - 1]]]);
      out.push(["many", Array.from({ length: 70 }, (_, i) => value[i % value.length])]);
    }
  }
  return out;
}

// Every place of a document: the path as an array of keys.
function* places(value, path = []) {
  yield path;
  if (value === null || typeof value !== "object") return;
  for (const key of Object.keys(value)) yield* places(value[key], [...path, key]);
}

function at(document, path) {
  return path.reduce((value, key) => value[key], document);
}

// A copy of the document with `change` applied to the holder of the last key of `path`.
function changed(document, path, change) {
  const copy = structuredClone({ root: document });
  const whole = ["root", ...path];
  const holder = at(copy, whole.slice(0, -1));
  change(holder, whole[whole.length - 1]);
  return copy.root;
}

// All mutants: {change, path, document}. `path` reads like a JSON pointer.
function* mutants(document) {
  for (const path of places(document)) {
    const name = "/" + path.join("/");
    const value = at(document, path);
    const holder = path.length > 0 ? at(document, path.slice(0, -1)) : null;
    if (holder !== null && !Array.isArray(holder)) {
      const drop = (o, k) => delete o[k];
      yield { change: "delete", path: name, document: changed(document, path, drop) };
    }
    if (typeOf(value) === "object") {
      const extra = (o, k) => { o[k].zz_unknown = 1; };
      yield { change: "unknown", path: name, document: changed(document, path, extra) };
    }
    for (const [change, other] of replacements(value)) {
      const put = (o, k) => { o[k] = other; };
      yield { change, path: name, document: changed(document, path, put) };
    }
  }
}

module.exports = { mutants };
