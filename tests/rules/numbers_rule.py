"""No clinical number in code: hours, days, ppm, grams and counts of samples are data with a source.

A number in code has no citation and cannot be a laboratory's own. There are no excuses; what is
harmless says so by what it is:
- arithmetic of units (60 minutes an hour, a million parts per million), and numbers up to 2, which
  are steps and counts of the code itself; a day is `std::chrono::days{1}`;
- a span of the program or of a person's convenience, as a constant with a name of its own that is
  no clinical word, and under or beside a comment that says why so long;
- a length of text in characters, named as one;
- a bound on a slip of the hand in a file of rules: those stand together in one header.
"""
import re

from source import Finding

LITERAL = r"(?P<n>\d[\d']*(?:\.\d+)?)"
UNIT = r"(?:hours|minutes|days|weeks|months|years|seconds)"
SPAN = r"(?:hours|minutes|days|weeks|months|years|seconds|milliseconds|duration|day_minute)"
CLINICAL = r"(?:dose|fast|washout|tolerance|threshold|cutoff|slack)"
A_SPAN, A_NAMED_SPAN, A_QUANTITY = "a span of time", "a span of time by name", "a clinical quantity"
A_RULE = "a number the protocols hold (weeks in days, grid, fast, gases)"
# (what, pattern, folders).
SHAPES = [
    (A_SPAN, rf"\b{UNIT}\s*[{{(]\s*{LITERAL}\s*[}})]", ("core", "app")),
    (A_SPAN, rf"(?<![\w.]){LITERAL}(?:h|min|s|d)\b", ("core", "app")),
    (A_NAMED_SPAN, rf"\b{SPAN}\s+(?P<name>\w+)\s*[{{(=]\s*{LITERAL}", ("core", "app")),
    (A_QUANTITY,
     rf"\b(?:\w*{CLINICAL}\w*"
     r"|\w+_(?:ppm|min|minutes|hours|days|weeks|g|ml|mg|s|seconds))_?\s*"
     rf"(?:=|==|!=|<=?|>=?|\+|-|\{{|\()\s*{LITERAL}", ("core", "app/lab")),
    ("a number of samples",
     rf"\b(?:\w*(?:sample|tube)s?(?:_count)?(?:\.size\(\)|\.value\(\))?\s*"
     rf"(?:==?|!=|<=?|>=?)|sample_number\s*[{{(])\s*{LITERAL}",
     ("core", "app")),
    (A_RULE, r"(?<![\w.'])(?P<n>14|28|75|90|135|720|900|1800|8100|43200)(?![\w.'])",
     tuple("core/" + one for one in ("protocol", "plan", "session", "findings", "clock", "record",
                                     "sheet", "curve", "receiving", "report", "case", "words"))),
]
# Arithmetic of calendars and units, wherever it stands.
CONVERSIONS = {"24", "60", "1000", "3600", "86400", "1440"}
LENGTH_OF_TEXT = re.compile(r"\bconstexpr\b.*\b\w+_(?:size|octets|characters|width)\s*=\s*\d+;")
# What no plausible protocol or profile leaves.
BOUNDS = "core/protocol/plausible.hpp"
A_BOUND = re.compile(r"^inline constexpr std::int64_t most_\w+ = [\d' *]+;")


def numbers(tree):
    cure = ("read it from the protocol or the profile in assets; tests/rules/numbers_rule.py says "
            "which numbers are harmless")
    for what, pattern, folders in SHAPES:
        shape = re.compile(pattern)
        for file in tree.cpp(*folders):
            for number, line in enumerate(file.code_lines, 1):
                for found in shape.finditer(line):
                    if not is_harmless(what, found, file, number):
                        yield Finding("numbers", file.path, number,
                                      f"{what} in code: {found.group(0).strip()}", cure)


def is_harmless(what, found, file, number):
    value = found.group("n").replace("'", "")
    line = file.code_lines[number - 1]
    if float(value) <= 2:
        return True
    if file.path == BOUNDS and A_BOUND.match(line) and has_reason(file, number):
        return True
    if what == A_NAMED_SPAN:
        return ("constexpr" in line and has_reason(file, number)
                and not re.search(CLINICAL, found.group("name")))
    if what == A_QUANTITY:
        return value in CONVERSIONS or (value == "1000000" and "ppm" in found.group(0))
    return what == A_RULE and LENGTH_OF_TEXT.search(line) is not None


def has_reason(file, number):
    """Whether a comment of some words stands on the line or right above it."""
    here, above = file.lines[number - 1], file.lines[number - 2].strip() if number > 1 else ""
    return bool(re.search(r"//\s*\w+\W+\w+", here) or re.match(r"//\s*\w+", above))
