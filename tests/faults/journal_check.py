"""An independent reader of a journal: SQLite's own library, libsodium, a JSON reader and SHA-256.

Knows nothing of the program but the form written down in core/record/codec.hpp,
app/store/journal_file.hpp, app/store/journal_key.hpp and app/store/sealed_rows.hpp. Opening the
file with a reader that may write also rolls back what a kill left half done, as any SQLite program
does.
"""
import contextlib
import ctypes
import ctypes.util
import hashlib
import json
import sqlite3

SODIUM = ctypes.CDLL(ctypes.util.find_library("sodium"))
HEAD, NONCE, TAG, DIGITS = 12, 24, 16, 64


def canonical(value):
    """RFC 8785 for what our files hold: whole numbers and ASCII keys."""
    return json.dumps(value, ensure_ascii=False, sort_keys=True, separators=(",", ":"))


def key_of(path):
    """The key beside the journal, of the first copy that is whole."""
    stem = path.rsplit(".", 1)[0]
    for end in (".key-1", ".key-2"):
        try:
            with open(stem + end, encoding="ascii") as file:
                first, key, digest = file.read().splitlines()
        except (OSError, ValueError):
            continue
        right = hashlib.sha256(f"{first}\n{key}\n".encode()).hexdigest()
        if first == "quarterbreath-journal-key 1" and digest == right:
            return bytes.fromhex(key)
    raise ValueError("no copy of the key can be read")


def unsealed(key, place, sealed):
    """The text sealed at that place; raises where it does not open."""
    nonce, rest, at = sealed[:NONCE], sealed[NONCE:], place.encode()
    out = ctypes.create_string_buffer(len(rest) - TAG)
    bad = SODIUM.crypto_aead_xchacha20poly1305_ietf_decrypt(
        out, None, None, rest, ctypes.c_ulonglong(len(rest)), at, ctypes.c_ulonglong(len(at)),
        nonce, key)
    if bad:
        raise ValueError(f"{place} does not open")
    return out.raw.decode()


def opened(key, seq, sealed):
    """(seq, body, hash) of one sealed row; raises where it does not open."""
    if sealed[:4] != b"QbR1" or int.from_bytes(sealed[4:8], "big") != seq \
            or int.from_bytes(sealed[8:HEAD], "big") != len(sealed) - HEAD:
        raise ValueError(f"row {seq} does not begin as a sealed one")
    text = unsealed(key, f"event {seq}", sealed[HEAD:])
    return seq, text[:-DIGITS], text[-DIGITS:]


def texts_of(path):
    """All that the key opens of a journal, drafts too, also while a program has it; nothing where
    no key is left. What does not open is left out."""
    out = []
    try:
        key = key_of(path)
        db = sqlite3.connect(f"file:{path}?immutable=1", uri=True)
        with contextlib.closing(db):
            out += [opened(key, *row)[1] for row in db.execute("SELECT seq, sealed FROM event")]
            out += [unsealed(key, f"draft {name}", sealed)
                    for name, sealed in db.execute("SELECT key, sealed FROM draft")]
    except (ValueError, sqlite3.Error):
        pass
    return out


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
        sealed = db.execute("SELECT seq, sealed FROM event ORDER BY seq").fetchall()
        key = key_of(path) if sealed else b""
        return [opened(key, seq, row) for seq, row in sealed]
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
