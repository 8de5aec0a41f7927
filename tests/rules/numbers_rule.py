"""No clinical number in code: hours, days, ppm, grams and counts of samples are data with a source.

A number in code has no citation and cannot be a laboratory's own. Conversions of units (60 minutes
an hour) are arithmetic, not rules, and are not meant. Where a number must stand in code all the
same, the line says why: `// number: REASON`; the runner prints how many such lines there are.
"""
import re

from source import Finding

LITERAL = r"(?P<n>\d[\d']*(?:\.\d+)?)"
UNIT = (r"(?:hours|minutes|days|weeks|months|years|seconds)")
# (what, pattern, folders). Numbers up to 2 are steps and counts of the code itself.
SHAPES = [
    ("a span of time", rf"\b{UNIT}\s*[{{(]\s*{LITERAL}\s*[}})]", ("core", "app")),
    ("a span of time", rf"(?<![\w.]){LITERAL}(?:h|min|s|d)\b", ("core", "app")),
    ("a clinical quantity",
     r"\b(?:\w*(?:dose|fast|washout|tolerance|threshold|cutoff|slack)\w*"
     r"|\w+_(?:ppm|min|minutes|hours|days|weeks|g|ml|mg|s|seconds))_?\s*"
     rf"(?:=|==|!=|<=?|>=?|\+|-|\{{|\()\s*{LITERAL}", ("core", "app/lab")),
    ("a number of samples",
     rf"\b(?:\w*(?:sample|tube)s?(?:_count)?(?:\.size\(\)|\.value\(\))?\s*"
     rf"(?:==?|!=|<=?|>=?)|sample_number\s*[{{(])\s*{LITERAL}",
     ("core", "app")),
    ("a number the protocols hold (weeks in days, grid, fast, gases)",
     r"(?<![\w.'])(?P<n>14|28|75|90|135|720|900|1800|8100|43200)(?![\w.'])",
     tuple("core/" + one for one in ("protocol", "plan", "session", "findings", "clock", "record",
                                     "sheet", "curve", "receiving", "report", "case", "words"))),
]
# Arithmetic of calendars and units, wherever it stands.
CONVERSIONS = {"24", "60", "1000", "3600", "86400", "1440"}
EXCUSE = re.compile(r"//\s*number:\s*\S+")


def numbers(tree):
    cure = "read it from the protocol or the profile in assets, or say `// number: REASON`"
    for what, pattern, folders in SHAPES:
        shape = re.compile(pattern)
        for file in tree.cpp(*folders):
            for number, line in enumerate(file.code_lines, 1):
                if EXCUSE.search(file.lines[number - 1]):
                    continue
                for found in shape.finditer(line):
                    value = found.group("n").replace("'", "")
                    if float(value) > 2 and not is_conversion(what, value):
                        yield Finding("numbers", file.path, number,
                                      f"{what} in code: {found.group(0).strip()}", cure)


def is_conversion(what, value):
    return what == "a clinical quantity" and value in CONVERSIONS


def excused(tree):
    """The lines that carry an excuse, for the runner to count."""
    return [(file.path, number) for file in tree.cpp("core", "app")
            for number, line in enumerate(file.lines, 1) if EXCUSE.search(line)]
