// One log with one event of each kind, put together from the logs of all rehearsals.
// Mutants of ten whole logs would mostly ask the same again, and no rehearsal has every kind: what
// they lack, or have only in its plainest form, stands in further-events.json and counts first.
// Numbered anew, so good in form; its hashes do not fit.
"use strict";

const fs = require("node:fs");
const path = require("node:path");

function read(file) {
  return JSON.parse(fs.readFileSync(file, "utf8"));
}

// Writes the log to `file`; answers what is wrong with it: kinds that the schema has and it
// has not.
function writeEachKind(file, logs, schema) {
  const whole = read(logs[0]);
  const { events } = read(path.join(__dirname, "further-events.json"));
  const clothed = events.map((one) => ({ ...whole.events[0], ...one }));
  const seen = new Map();
  for (const one of logs.flatMap((log) => read(log).events)) {
    if (!seen.has(one.kind)) seen.set(one.kind, one);
  }
  for (const one of clothed) seen.set(one.kind, one);
  whole.events = [...seen.values()].map((one, i) => ({ ...one, seq: i + 1 }));
  fs.mkdirSync(path.dirname(file), { recursive: true });
  fs.writeFileSync(file, JSON.stringify(whole));
  return read(schema).$defs.event.properties.kind.enum
    .filter((kind) => !seen.has(kind)).map((kind) => `no event of kind ${kind}`);
}

module.exports = { writeEachKind };
