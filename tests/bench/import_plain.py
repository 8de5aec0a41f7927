"""What an import is measured against: the same rows put into SQLite by prepared statements.

    import_plain.py bare FOLDER STORE     reads each file and stores its row, believing it
    import_plain.py checked FOLDER STORE  first replays each log, as the laboratory's program does

The store has the columns, the index and the pragmas of ours, and each row is a transaction.
"""
import json
import os
import sqlite3
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "outside"))

import replay_log  # noqa: E402

COLUMNS = ["test_id", "events", "head", "kit_number", "protocol", "started", "rehearsal", "matches",
           "filled", "tubes", "body"]


def store_at(path):
    store = sqlite3.connect(path, isolation_level=None)
    store.execute("PRAGMA journal_mode=TRUNCATE")
    store.execute("PRAGMA synchronous=FULL")
    store.execute("CREATE TABLE log(test_id TEXT NOT NULL, events INTEGER NOT NULL, "
                  + ", ".join(f"{name} NOT NULL" for name in COLUMNS[2:])
                  + ", PRIMARY KEY(test_id, events))")
    store.execute("CREATE INDEX log_of_kit ON log(kit_number)")
    return store


def row_of(text):
    log = json.loads(text)
    samples = log["summary"]["samples"]
    return [log["events"][0]["data"]["test_id"], len(log["events"]), log["head"],
            log["person"]["kit_number"], log["rules"]["protocol"]["id"],
            samples[0]["closed"], 1, 1, sum(one["closed"] is not None for one in samples),
            len(samples), text]


def main(how, folder, path):
    store = store_at(path)
    insert = "INSERT INTO log VALUES(" + ",".join("?" * len(COLUMNS)) + ")"
    for name in sorted(os.listdir(folder)):
        with open(os.path.join(folder, name), encoding="utf-8") as file:
            text = file.read()
        if how == "checked" and replay_log.faults(text):
            raise SystemExit(f"FAIL {name} does not match its own record")
        store.execute(insert, row_of(text))


main(*sys.argv[1:])
