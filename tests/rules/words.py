"""What no file may say: leftover markers, paths of one machine, addresses nobody decided on.

A clone must mean the same to everyone, everywhere. The patterns are put together from halves, so
that this file does not contain what it forbids.
"""
import re

from source import Finding

MARKERS = re.compile(r"\b(" + "|".join(["TO" + "DO", "FIX" + "ME", "XX" + "X", "HA" + "CK",
                                        "W" + "IP"]) + r")\b")
MACHINE = re.compile(r"(?<![\w.$}*/-])/(" + "|".join(
    ["ho" + "me", "ro" + "ot", "tm" + "p", "wo" + "rk", "Us" + "ers", "me" + "dia", "mn" + "t"])
    + r")/[\w.]")
REGISTRY = re.compile(r'"reso' + r'lved"\s*:|\bregi' + r"stry\.\w|\barti" + r"factory\b|\bverd" +
                      r"accio\b|\bdeb\.deb" + r"ian\b")
ADDRESS = re.compile(r"\b(?:https?|ftp|git|ssh)://([\w.-]+)")
# Hosts that are named on purpose: standards, sources of rules, and names nobody can own.
HOSTS = {"json-schema.org", "www.rfc-editor.org", "doi.org", "www.w3.org", "creativecommons.org",
         "pubmed.ncbi.nlm.nih.gov", "www.ncbi.nlm.nih.gov",
         # The name of an office's settings.
         "openoffice.org",
         # Names of code systems, which FHIR writes as addresses.
         "loinc.org", "snomed.info", "unitsofmeasure.org", "terminology.hl7.org"}
UNOWNED = (".example", ".invalid", ".test", "localhost", "example.org", "example.com")
TOP = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "app", "assets", "core", "demo-data",
       "tests", "build"}


def leftovers(tree):
    for file in tree.files:
        for number, line in enumerate(file.lines, 1):
            found = MARKERS.search(line)
            if found:
                yield Finding("leftovers", file.path, number, "a leftover " + found.group(0),
                              "do it, or file it where open work is kept")


def places(tree):
    for file in tree.files:
        for number, line in enumerate(file.lines, 1):
            found = MACHINE.search(line) or REGISTRY.search(line)
            if found:
                yield Finding("places", file.path, number,
                              f"a place of one machine: {found.group(0)}",
                              "use a path from the repository, mktemp, or a parameter")
            for host in ADDRESS.findall(line):
                if host not in HOSTS and not host.endswith(UNOWNED):
                    yield Finding("places", file.path, number, f"an address: {host}",
                                  "leave it out, or add the host to words.py with intent")


def top_level(tree):
    for name in sorted({file.path.split("/")[0] for file in tree.files}):
        if name not in TOP and not name.startswith("."):
            yield Finding("top-level", name, 1, "does not belong at the top level",
                          "put it into one of the folders of the design")
