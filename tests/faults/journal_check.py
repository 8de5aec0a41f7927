"""An independent reader of a journal: SQLite's own library, a JSON reader and SHA-256.

Knows nothing of the program but the form written down in core/record/codec.hpp and
app/store/journal_file.hpp. Opening the file with a reader that may write also rolls back what a
kill left half done, as any SQLite program does.
"""
import hashlib
import json
import sqlite3


def canonical(value):
    """RFC 8785 for what our files hold: whole numbers and ASCII keys."""
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"))


def rows_of(path):
    """Every (seq, body, hash) of the journal, after SQLite's own check; raises on damage."""
    db = sqlite3.connect(path)
    try:
        verdict = db.execute("PRAGMA integrity_check").fetchall()
        if verdict != [("ok",)]:
            raise ValueError(f"integrity_check says {verdict[0][0]}")
        there = db.execute("SELECT count(*) FROM sqlite_master WHERE name='event'").fetchone()[0]
        if not there:
            return []
        return db.execute("SELECT seq, body, hash FROM event ORDER BY seq").fetchall()
    finally:
        db.close()


def fault_of_chain(rows):
    """Why rows are not numbered from 1, canonical and chained by hash; None when they are."""
    head = "0" * 64
    for place, (seq, body, digest) in enumerate(rows, 1):
        if seq != place:
            return f"row {place} has number {seq}"
        value = json.loads(body)
        if canonical(value) != body:
            return f"event {seq} is not canonical"
        if value["seq"] != seq:
            return f"event {seq} says it is {value['seq']}"
        head = hashlib.sha256(f"{head}\n{body}".encode()).hexdigest()
        if head != digest:
            return f"the hash of event {seq} does not fit"
    return None
