"""Files that are small to send and dear to read: made here, so that none lies about as a file.

Each is a name and its bytes. What unpacks is made from pieces that repeat, so that making it costs
nothing: a deflated block of zeros is as good a second time.
"""
import hashlib
import json
import zlib

MEGABYTE = 1024 * 1024
MOST = 16 * MEGABYTE  # what either program reads of one file


def deflated(megabytes, byte=0, before=b"", after=b""):
    """A whole deflated stream: `before`, so many megabytes of one byte, and `after`."""
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    head = packer.compress(before) + packer.flush(zlib.Z_FULL_FLUSH)
    block = packer.compress(bytes([byte]) * MEGABYTE) + packer.flush(zlib.Z_FULL_FLUSH)
    tail = packer.compress(after) + packer.flush(zlib.Z_FINISH)
    count, prime = megabytes * MEGABYTE, 65521  # its checksum, without making it
    one = zlib.adler32(before)
    low, high = one & 0xffff, one >> 16
    high = (high + count * low + byte * count * (count + 1) // 2) % prime
    low = (low + byte * count) % prime
    whole = zlib.adler32(after, high << 16 | low)
    return b"\x78\xda" + head + block * megabytes + tail + whole.to_bytes(4, "big")


def layered(layers, megabytes, byte=0):
    """The same, deflated so many times: each layer is a small part of the one below."""
    out = deflated(megabytes, byte)
    for _ in range(layers - 1):
        out = zlib.compress(out, 9)
    return out


class Pdf:
    """Numbered objects, and the table that says where they are."""

    def __init__(self):
        self.objects = {}

    def put(self, number, text, stream=None):
        body = text.encode()
        if stream is not None:
            body += b"\nstream\n" + stream + b"\nendstream"
        self.objects[number] = body
        return self

    def written(self, trailer="", size=None):
        out, at = bytearray(b"%PDF-1.7\n"), {}
        for number, body in self.objects.items():
            at[number] = len(out)
            out += b"%d 0 obj\n" % number + body + b"\nendobj\n"
        table = len(out)
        last = max(self.objects) + 1
        out += b"xref\n0 %d\n0000000000 65535 f \n" % last
        for number in range(1, last):
            out += (b"%010d 00000 n \n" % at[number] if number in at
                    else b"0000000000 00001 f \n")
        out += b"trailer\n<</Root 1 0 R /Size %d %s>>\n" % (size or last, trailer.encode())
        return bytes(out + b"startxref\n%d\n%%%%EOF\n" % table)


def sheet(streams, name="a%d.log.json", filters="/FlateDecode", more=""):
    """A document with these streams attached."""
    out = Pdf()
    names = "".join(f"({name % n if '%' in name else name}) {3 + 2 * n} 0 R "
                    for n in range(len(streams)))
    out.put(1, f"<</Type/Catalog /Pages 2 0 R /Names <</EmbeddedFiles <</Names [{names}]>>>>>>")
    out.put(2, "<</Type/Pages /Kids [] /Count 0>>")
    for n, stream in enumerate(streams):
        called = name % n if "%" in name else name
        out.put(3 + 2 * n, f"<</Type/Filespec /F ({called}) /UF ({called}) "
                           f"/EF <</F {4 + 2 * n} 0 R>>>>")
        out.put(4 + 2 * n, f"<</Length {len(stream)} /Filter {filters} {more}>>", stream)
    return out.written()


def table_in_a_stream(packed, more=""):
    """A document whose table of objects is a stream, deflated."""
    head = b"%PDF-1.7\n"
    one = (b"1 0 obj\n<</Type/XRef /Root 2 0 R /W [1 2 1] /Size 100000000 /Filter/FlateDecode "
           b"/Length %d %s>>\nstream\n" % (len(packed), more.encode()))
    return head + one + packed + b"\nendstream\nendobj\nstartxref\n%d\n%%%%EOF\n" % len(head)


def objects_in_a_stream(packed, count=1000000):
    """A document whose catalogue lies in a stream of objects, deflated."""
    head = b"%PDF-1.7\n"
    holder = (b"3 0 obj\n<</Type/ObjStm /N %d /First 10 /Filter/FlateDecode /Length %d>>\nstream\n"
              % (count, len(packed))) + packed + b"\nendstream\nendobj\n"
    rows = (b"\x00\x00\x00\x00" + b"\x02\x00\x03\x00" + b"\x02\x00\x03\x01"
            + b"\x01" + len(head).to_bytes(2, "big") + b"\x00")
    at = len(head) + len(holder)
    table = (b"4 0 obj\n<</Type/XRef /Root 1 0 R /W [1 2 1] /Size 4 /Length %d>>\nstream\n"
             % len(rows)) + rows + b"\nendstream\nendobj\n"
    return head + holder + table + b"startxref\n%d\n%%%%EOF\n" % at


def pdf_bombs():
    three = "[" + "/FlateDecode " * 3
    nothing = layered(3, 16384, ord(" "))
    yield "zeros in three layers", sheet([layered(3, 16384)], filters=three + "]")
    yield "blanks that come to nothing", sheet([nothing], filters=three + "/ASCIIHexDecode]")
    yield "64 of those", sheet([nothing] * 64, filters=three + "/ASCIIHexDecode]")
    yield "64 of those of one name", sheet([nothing] * 64, name="a.log.json",
                                           filters=three + "/ASCIIHexDecode]")
    yield "a deflated table of objects", table_in_a_stream(deflated(8192))
    yield "one in wide columns", table_in_a_stream(
        deflated(8192), "/DecodeParms <</Predictor 12 /Columns 1000000000>>")
    yield "one in three layers", table_in_a_stream(layered(3, 16384)).replace(
        b"/Filter/FlateDecode", b"/Filter" + (three + "]").encode())
    yield "a deflated stream of objects", objects_in_a_stream(
        deflated(4096, ord(" "), b"1 0 2 4 <<>>"))
    yield "one in three layers", objects_in_a_stream(layered(3, 16384, ord(" "))).replace(
        b"/Filter/FlateDecode", b"/Filter" + (three + "]").encode())
    yield "a stream of three million objects", objects_in_a_stream(
        zlib.compress(b"1 0 " * 3000000 + b"<<>>"), 3000000)
    yield "runs of runs", sheet([b"\x81\x00" * 400000], filters="[/RunLengthDecode"
                                + " /RunLengthDecode" * 2 + "]")
    yield "LZW of nothing", sheet([b"\x80\x0b\x60\x50\x22\x0c\x0c\x85\x01" * 90000],
                                  filters="[/LZWDecode /LZWDecode]")
    yield "a thousand filters", sheet([layered(2, 4096)], filters="[" + "/FlateDecode " * 1000
                                      + "]")
    yield "a predictor of a thousand million columns", sheet(
        [deflated(8192)], more="/DecodeParms <</Predictor 15 /Columns 1000000000 /Colors 32>>")
    yield "lists in lists", Pdf().put(1, "<</Type/Catalog /Names " + "[" * 500000
                                      + "]" * 500000 + ">>").written()
    yield "names that go round", Pdf().put(
        1, "<</Type/Catalog /Names <</EmbeddedFiles 2 0 R>>>>").put(
            2, "<</Kids [2 0 R 2 0 R 2 0 R]>>").written()
    doubling = Pdf().put(1, "<</Type/Catalog /Names <</EmbeddedFiles 2 0 R>>>>")
    for level in range(2, 60):
        doubling.put(level, f"<</Kids [{level + 1} 0 R {level + 1} 0 R]>>")
    yield "names that double at each level", doubling.put(60, "<</Names []>>").written()
    yield "a table of a thousand million", Pdf().put(1, "<</Type/Catalog>>").written(
        size=1000000000)
    yield "tables that go round", Pdf().put(1, "<</Type/Catalog>>").written("/Prev 9")
    yield "a length that is itself", Pdf().put(1, "<</Type/Catalog /Names <</EmbeddedFiles <</Names"
                                                  " [(a.log.json) 2 0 R]>>>>>>").put(
        2, "<</Type/Filespec /F (a.log.json) /EF <</F 3 0 R>>>>").put(
            3, "<</Length 3 0 R>>", b"{}").written()


def text_bombs():
    yield "lists in lists.json", b"[" * MOST
    yield "objects in objects.json", b'{"a":' * (MOST // 5)
    yield "millions of lists.json", b"[" + b"[]," * (MOST // 3 - 10) + b"1]"
    yield "millions of objects.json", b"[" + b'{"a":1},' * (MOST // 8 - 10) + b"1]"
    keys = ",".join(f'"k{n}":1' for n in range(1200000)).encode()
    yield "a million keys.json", b"{" + keys[:MOST - 10] + b'":1}'
    yield "the same key at the end.json", b"{" + ",".join(
        f'"k{n}":1' for n in range(900000)).encode() + b',"k0":1}'
    yield "one long number.json", b"1" * MOST
    yield "one long text.json", b'"' + b"a" * (MOST - 2) + b'"'
    yield "escapes alone.json", b'"' + b"\\u0041" * ((MOST - 2) // 6) + b'"'
    yield "one long key twice.json", b'{"' + b"k" * (MOST // 3) + b'":1,"' + b"k" * (
        MOST // 3) + b'":1}'
    yield "line ends.json", b"\n" * MOST
    yield "recipients without end.age", b"age-encryption.org/v1\n" + b"-> X25519 a\n\n" * (
        MOST // 13)
    yield "one endless line.age", b"age-encryption.org/v1\n-> " + b"a " * (MOST // 2 - 20)


def many_facts(log, kind, data, vary, count):
    """The log with so many facts of that kind more, each with other words in one field, chained
    as the format has it (core/record/log.hpp)."""
    whole = json.loads(log)
    first = next(n for n, one in enumerate(whole["events"]) if one["kind"] == "plan") + 1
    more = [{"at": whole["events"][first - 1]["at"], "kind": kind,
             "data": dict(data, **{vary: f"{data[vary]}-{n}"})} for n in range(count)]
    head, events = "0" * 64, whole["events"][:first] + more + whole["events"][first:]
    for seq, one in enumerate(events, 1):
        one.pop("hash", None)
        one["seq"] = seq
        head = hashlib.sha256((head + "\n" + canonical(one)).encode()).hexdigest()
        one["hash"] = head
    whole.update(events=events, head=head)
    return canonical(whole).encode()


def canonical(value):
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
