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

// A copy of an object without one key, the others in their order.
function without(object, key) {
  const { [key]: _, ...rest } = object;
  return rest;
}

// The changes at one place: [name of the change, path of what is replaced, new value].
function changesAt(root, path) {
  const value = at(root, path);
  const out = replacements(value).map(([change, other]) => [change, path, other]);
  if (typeOf(value) === "object") out.unshift(["unknown", path, { ...value, zz_unknown: 1 }]);
  const holder = path.slice(0, -1);
  if (holder.length > 0 && !Array.isArray(at(root, holder))) {
    out.unshift(["delete", holder, without(at(root, holder), path[path.length - 1])]);
  }
  return out;
}

// What a change asks: the same for two documents when the place, the value and what it becomes are
// the same. A part of a list is known by its kind or id, and not by its number.
function asked(change, root, path, before, other) {
  let value = root;
  const place = path.map((part) => {
    const inList = Array.isArray(value);
    value = value[part];
    return inList ? `*${value?.kind ?? value?.id ?? ""}` : part;
  });
  return JSON.stringify([change, place, before, other]);
}

// All mutants, one after the other: {change, path, asks, document}. `path` reads like a JSON
// pointer; `asks` is a text that two documents share where they are changed in the same words.
// The document is the one that was given, changed for as long as nobody asks for the next: a log
// of thousands of places would else be copied as often.
function* mutants(document) {
  const root = { root: document };
  for (const path of [...places(document)]) {
    for (const [change, replaced, other] of changesAt(root, ["root", ...path])) {
      const holder = at(root, replaced.slice(0, -1));
      const key = replaced[replaced.length - 1];
      const before = holder[key];
      const asks = asked(change, root, replaced, before, other);
      holder[key] = other;
      yield { change, path: "/" + path.join("/"), asks, document: root.root };
      holder[key] = before;
    }
  }
}

module.exports = { mutants };
