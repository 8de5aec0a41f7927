"""LibreOffice without a window: converts files, and its flat sheets read back cell by cell.

A part of deep_spreadsheet. Every call has a profile of its own, so that nothing of the person who
runs the tests is read or changed.
"""
import os
import re
import shutil
import subprocess
import xml.etree.ElementTree as xml
from decimal import Decimal

OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
TEXT = "{urn:oasis:names:tc:opendocument:xmlns:text:1.0}"
PATIENCE_S = 600  # for an office that never comes back
# Commas, double quotes, UTF-8, from the first line: what its dialogue offers for our tables.
COMMAS = "CSV:44,34,76,1"
SETTINGS = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Setup/L10N"><prop oor:name="ooSetupSystemLocale" oor:op="fuse">
<value>{}</value></prop></item></oor:items>
"""


class Office:
    """An office of one country, such as de-DE, whose profile and files lie in `folder`."""

    def __init__(self, folder, country):
        if shutil.which("soffice") is None:
            raise SystemExit("FAIL there is no soffice here: the package libreoffice-calc-nogui")
        self.folder = folder
        user = os.path.join(folder, "profile", "user")
        os.makedirs(user)
        with open(os.path.join(user, "registrymodifications.xcu"), "w", encoding="utf-8") as file:
            file.write(SETTINGS.format(country))

    def convert(self, paths, kind, name, reading=None):
        """Into the folder `name`; `kind` is an ending, or one with a filter. Answers the files."""
        out = os.path.join(self.folder, name)
        ending = kind.split(":")[0]
        how = [f"--infilter={reading}"] if reading else []
        ran = subprocess.run(
            ["soffice", f"-env:UserInstallation=file://{self.folder}/profile", "--headless",
             "--convert-to", kind, *how, "--outdir", out, *paths],
            capture_output=True, text=True, check=False, timeout=PATIENCE_S)
        made = [os.path.join(out, os.path.splitext(os.path.basename(path))[0] + "." + ending)
                for path in paths]
        missing = [path for path in made if not os.path.exists(path)]
        if ran.returncode != 0 or missing:
            raise SystemExit(f"FAIL the office made no {missing[:1]}: {ran.stderr.strip()[:200]}")
        return made


def written_with(delimiter, quoted):
    """The kind of a CSV file in UTF-8, each cell as it is shown; texts in quotes, or as needed."""
    return (f"csv:Text - txt - csv (StarCalc):{ord(delimiter)},34,76,1,,0,"
            f"{'true' if quoted else 'false'},true,false")


def paragraph(element):
    """The text of a paragraph, with the blanks that the format writes as elements."""
    out = element.text or ""
    for child in element:
        if child.tag == TEXT + "s":
            out += " " * int(child.get(TEXT + "c", "1"))
        elif child.tag in (TEXT + "tab", TEXT + "line-break"):
            out += "\t" if child.tag == TEXT + "tab" else "\n"
        else:
            out += paragraph(child)
        out += child.tail or ""
    return out


class Cell:
    """What a spreadsheet holds: how it took the cell, its value, and the text that it shows."""

    def __init__(self, element):
        self.kind = element.get(OFFICE + "value-type", "")
        if element.get(TABLE + "formula") is not None:
            self.kind = "formula"
        names = {"float": "value", "date": "date-value", "time": "time-value"}
        self.value = element.get(OFFICE + names.get(self.kind, "value"), "")
        self.shown = "\n".join(paragraph(one) for one in element.findall(TEXT + "p"))


def sheet(path):
    """The rows of a flat sheet, without the empty rows and cells at their ends."""
    rows = []
    tables = xml.parse(path).getroot().findall(f".//{TABLE}table")
    if len(tables) != 1:
        raise SystemExit(f"FAIL {path}: {len(tables)} sheets, not one")
    for row in tables[0].iter(TABLE + "table-row"):
        cells = []
        for element in row:
            if element.tag == TABLE + "table-cell":
                times = int(element.get(TABLE + "number-columns-repeated", "1"))
                cells += [Cell(element)] * times
        while cells and not cells[-1].kind:
            cells.pop()
        times = int(row.get(TABLE + "number-rows-repeated", "1"))
        rows += [cells] * (times if cells else 1)
    while rows and not rows[-1]:
        rows.pop()
    return rows


NUMBER = re.compile(r"-?(0|[1-9][0-9]*)(\.[0-9]+)?")
MOMENT = re.compile(r"([0-9]{4}-[0-9]{2}-[0-9]{2})(?:[ T]([0-9]{2}:[0-9]{2})(:[0-9]{2})?)?")
CLOCK = re.compile(r"([0-9]{2}):([0-9]{2})(?::([0-9]{2}))?")


def plain(text):
    """A moment as a sheet holds it; anything else as it is."""
    moment = MOMENT.fullmatch(text)
    if moment and moment[2]:
        return f"{moment[1]}T{moment[2]}{moment[3] or ':00'}"
    return text


def unlike(cell, text):
    """Why the cell is not the text, or nothing. A number must be written as numbers are: 007 is
    no number, and a sheet that makes it one has changed it."""
    clock = CLOCK.fullmatch(text)
    if cell is None or not cell.kind:
        same = text == ""
    elif cell.kind == "string":
        same = cell.shown == text
    elif cell.kind == "float":
        same = bool(NUMBER.fullmatch(text)) and Decimal(cell.value) == Decimal(text)
    elif cell.kind == "date":
        same = bool(MOMENT.fullmatch(text)) and cell.value == plain(text)
    elif cell.kind == "time":
        same = clock and cell.value == f"PT{clock[1]}H{clock[2]}M{clock[3] or '00'}S"
    else:
        same = False
    if same:
        return ""
    return f"{text!r} became {cell.kind} {cell.value!r}, shown as {cell.shown!r}" if cell else \
        f"{text!r} is gone"
