"""The texts of the logs in a laboratory's store, unpacked by Zstandard's library itself, as
app/store/packed_bodies.hpp describes them."""
import ctypes
import re

ZSTD = ctypes.CDLL("libzstd.so.1")
ZSTD.ZSTD_getFrameContentSize.restype = ctypes.c_ulonglong
ZSTD.ZSTD_getFrameContentSize.argtypes = [ctypes.c_char_p, ctypes.c_size_t]
ZSTD.ZSTD_decompress.restype = ctypes.c_size_t
ZSTD.ZSTD_decompress.argtypes = [ctypes.c_void_p, ctypes.c_size_t, ctypes.c_char_p, ctypes.c_size_t]


def decompressed(frame):
    size = ZSTD.ZSTD_getFrameContentSize(frame, len(frame))
    if size > 1 << 24:
        raise ValueError("no frame that tells its size")
    out = ctypes.create_string_buffer(size)
    if ZSTD.ZSTD_decompress(out, size, frame, len(frame)) != size:
        raise ValueError("a damaged frame")
    return out.raw


def texts(store):
    """(test id, events, text) of each packed log, by test id and events."""
    rules = {b"%d" % row[0]: row[1].encode() for row in store.execute(
        "SELECT id, body FROM frozen_rules")}
    for test, events, body in store.execute(
            "SELECT test_id, events, body FROM log_packed ORDER BY test_id, events"):
        text = re.sub(rb"\x1a(\d+)\x1a", lambda found: rules[found.group(1)], decompressed(body))
        yield test, events, text.decode("utf-8")
