"""The age v1 form once more, by another hand: Python and its cryptography library.

It can make files that no tool makes, to see that they are refused.
"""
import base64
import subprocess

from cryptography.hazmat.primitives import hashes, hmac, serialization
from cryptography.hazmat.primitives.asymmetric import x25519
from cryptography.hazmat.primitives.ciphers.aead import ChaCha20Poly1305
from cryptography.hazmat.primitives.kdf.hkdf import HKDF

LETTERS = "qpzry9x8gf2tvdw0s3jn54khce6mua7l"


def public_of(secret):
    """The X25519 public key of 32 secret bytes."""
    key = x25519.X25519PrivateKey.from_private_bytes(secret).public_key()
    return key.public_bytes(serialization.Encoding.Raw, serialization.PublicFormat.Raw)


def identity_bytes(path):
    """The 32 secret bytes of an identity file, its checksum left unread."""
    with open(path, encoding="ascii") as file:
        line = [one.strip() for one in file if one.startswith("AGE-SECRET-KEY-")][0]
    bits = "".join(f"{LETTERS.index(one):05b}" for one in line.lower().rsplit("1", 1)[1][:-6])
    return bytes(int(bits[at:at + 8], 2) for at in range(0, 256, 8))


def derived(key, salt, purpose):
    return HKDF(hashes.SHA256(), 32, salt, purpose).derive(key)


def bare(data):
    return base64.b64encode(data).rstrip(b"=")


def sealed_file(secret, pieces):
    """A file sealed to that identity, in just these pieces, in form or not."""
    recipient, ephemeral, file_key, nonce = public_of(secret), b"\x21" * 32, b"k" * 16, b"n" * 16
    share = public_of(ephemeral)
    shared = x25519.X25519PrivateKey.from_private_bytes(ephemeral).exchange(
        x25519.X25519PublicKey.from_public_bytes(recipient))
    wrap = derived(shared, share + recipient, b"age-encryption.org/v1/X25519")
    body = ChaCha20Poly1305(wrap).encrypt(b"\0" * 12, file_key, None)
    head = b"age-encryption.org/v1\n-> X25519 " + bare(share) + b"\n" + bare(body) + b"\n---"
    code = hmac.HMAC(derived(file_key, None, b"header"), hashes.SHA256())
    code.update(head)
    out = head + b" " + bare(code.finalize()) + b"\n" + nonce
    payload = ChaCha20Poly1305(derived(file_key, nonce, b"payload"))
    for number, piece in enumerate(pieces):
        last = number == len(pieces) - 1
        out += payload.encrypt(number.to_bytes(11, "big") + bytes([last]), piece, None)
    return out


def log_name(sheet):
    """The name of the log attached to a sheet, as poppler lists it."""
    listed = subprocess.run(["pdfdetach", "-list", sheet], capture_output=True, text=True,
                            check=True).stdout.splitlines()
    return [one.split(": ", 1)[1] for one in listed if one.endswith(".log.json")][0]
