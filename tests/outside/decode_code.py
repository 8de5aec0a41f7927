"""Our codes read by another hand, from the description of their bytes alone.

core/code/code_text.hpp and core/code/packed_result.hpp describe them; nothing here is shared with
the program. Base45 is worked out as RFC 9285 says; the signature is checked by OpenSSL.
"""
import binascii
import hashlib
import os
import subprocess

ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"
HOW = ["observed", "told", "estimated"]
AFTER = ["after-last", "later"]
KEPT = ["all", "more-than-half", "less-than-half", "none"]


class Bad(Exception):
    pass


def base45(data):
    out = ""
    for i in range(0, len(data), 2):
        pair = data[i:i + 2]
        number, size = int.from_bytes(pair, "big"), 3 if len(pair) == 2 else 2
        out += "".join(ALPHABET[number // 45 ** k % 45] for k in range(size))
    return out


def read_base45(text):
    out = b""
    for i in range(0, len(text), 3):
        digits = [ALPHABET.index(c) for c in text[i:i + 3]]
        number = sum(d * 45 ** k for k, d in enumerate(digits))
        if len(digits) == 1 or number >= 256 ** (len(digits) - 1):
            raise Bad("no Base45")
        out += number.to_bytes(len(digits) - 1, "big")
    return out


def join(texts):
    """The content of all codes of one result."""
    parts, sets = {}, set()
    for text in texts:
        if text[:3] != "QB1" or len(text) > 320 or set(text) - set(ALPHABET):
            raise Bad("no code of ours")
        if f"{binascii.crc_hqx(text[:-4].encode(), 0xFFFF):04X}" != text[-4:]:
            raise Bad("its check does not fit")
        parts[int(text[3])] = read_base45(text[11:-4])
        sets.add((text[4], text[5:11]))
    (count, name), = sets
    if sorted(parts) != list(range(1, int(count) + 1)):
        raise Bad("a part is missing")
    content = b"".join(parts[i] for i in sorted(parts))
    if base45(hashlib.sha256(content).digest()[:4]) != name:
        raise Bad("the parts do not fit each other")
    return content


class Bytes:
    def __init__(self, data):
        self.data, self.at = data, 0

    def take(self, size):
        if self.at + size > len(self.data):
            raise Bad("too short")
        self.at += size
        return self.data[self.at - size:self.at]

    def byte(self):
        return self.take(1)[0]

    def count(self):
        number, shift = 0, 0
        while True:
            one = self.byte()
            number |= (one & 127) << shift
            shift += 7
            if one < 128:
                return number

    def number(self):
        count = self.count()
        return count // 2 if count % 2 == 0 else -(count // 2) - 1

    def text(self):
        return self.take(self.count()).decode("utf-8")


def scores(f, symptoms):
    halves = [half for b in f.take((symptoms + 1) // 2) for half in (b >> 4, b & 15)]
    return [None if half == 15 else half for half in halves[:symptoms]]


def sample(f, symptoms, usual):
    bits = f.byte()
    one = {"how": HOW[(bits & 3) - 1] if bits & 3 else None, "repeated": bool(bits & 4),
           "again": bool(bits & 8), "corrected": bool(bits & 16), "scores": []}
    one["closed"] = f.number() if bits & 3 else None
    one["elapsed"] = f.number() if bits & 32 else one["closed"]
    one["offset"] = f.number() if bits & 64 else usual
    if bits & 128:
        one["scores"] = scores(f, symptoms)
    return one


def after(f, symptoms):
    bits = f.byte()
    return {"when": AFTER[bits & 1], "corrected": bool(bits & 2), "elapsed": f.number(),
            "scores": scores(f, symptoms)}


def unpack(content):
    f = Bytes(content)
    out = {"version": f.byte(), "practice": f.byte() == 1, "kit_number": f.text(),
           "protocol": f.text(), "digest": f.take(4).hex()}
    out["test_id"] = f.text() or f.take(8).hex()
    out["events"], out["head"] = f.count(), f.take(8).hex()
    out["zero"], out["offset"], flags = f.count(), f.number(), f.count()
    out["flags"] = {n for n in range(64) if flags >> n & 1}
    drink = f.byte()
    out["drink_start"] = f.number() if drink & 1 else None
    out["drink_end"] = f.number() if drink & 2 else None
    out["all_of_it"], out["drink_how"] = bool(drink & 4), HOW[drink >> 3 & 3]
    out["kept"] = KEPT[drink >> 5 & 3]
    symptoms = f.count()
    out["samples"] = [sample(f, symptoms, out["offset"]) for _ in range(f.count())]
    out["after"] = [after(f, symptoms) for _ in range(f.count())] if out["version"] > 1 else []
    out["signed"] = None
    before = content[:f.at]
    if f.byte() == 1:
        key_id = f.take(8)
        out["signed"] = (key_id, b"quarterbreath code 1\n" + before + b"\1" + key_id, f.take(64))
    if f.at != len(content):
        raise Bad("bytes left over")
    return out


def is_signed_by(key, signed, folder):
    """Whether OpenSSL finds the signature to be that key's (32 bytes)."""
    paths = [os.path.join(folder, name) for name in ("key.der", "message", "signature")]
    contents = [bytes.fromhex("302a300506032b6570032100") + key, signed[1], signed[2]]
    for path, data in zip(paths, contents):
        with open(path, "wb") as file:
            file.write(data)
    return subprocess.run(
        ["openssl", "pkeyutl", "-verify", "-pubin", "-inkey", paths[0], "-keyform", "DER", "-rawin",
         "-in", paths[1], "-sigfile", paths[2]], capture_output=True, check=False).returncode == 0
