"""What is used comes from a package that is installed: the list in app/setup.sh, held against use.

packages.txt says of each command, module, library, header and file that is used which package
brings it. A thing that is used and not in that table, a package that the list lacks, a line that
nothing uses and a package that nothing is used of are all findings. Where the package is installed
on the machine that checks, dpkg says whether it really brings the thing. The words of a page's
blocks count like those of a script.
"""
import glob
import importlib.util
import re
import shutil
from typing import NamedTuple

from dpkg import Dpkg
from source import Finding
from used import TABLE, Use, uses

LIST = "app/setup.sh"
PATH = "/usr/bin:/usr/sbin:/bin:/sbin"
# Instead of a package: what Debian never lacks, what is of no package, what may be missing.
BASE, MACHINE, OPTIONAL = "base", "machine", "optional"
BUILDING = ("app/", "core/", "CMakeLists.txt")
# Where a thing of a kind lies, if its line in the table does not say it.
PLACES = {"shared": ["/usr/lib/*/{}", "/lib/*/{}"],
          "library": ["/usr/lib/*/lib{}.so", "/usr/lib/lib{}.so"],
          "pkg-config": ["/usr/lib/*/pkgconfig/{}.pc", "/usr/share/pkgconfig/{}.pc"],
          "package": ["/usr/lib/*/cmake/{}/*onfig.cmake", "/usr/lib/cmake/{}/*onfig.cmake",
                      "/usr/share/cmake/{}/*onfig.cmake", "/usr/share/{}/cmake/*onfig.cmake"],
          "header": ["/usr/include/{}", "/usr/include/*/{}", "/usr/include/*/*/{}"],
          "font": ["/usr/share/fonts/truetype/noto/{}-Regular.ttf"],
          "file": ["{}"]}
KINDS = ("command", "module", "flag", *PLACES, "also")
# The kinds of which a line stands for all that begins with it.
BEGINNINGS = ("header", "file")


class Row(NamedTuple):
    """A line of the table: which package brings the thing, and a file that shows it."""
    kind: str
    thing: str
    package: str
    place: str
    line: int

    def covers(self, use):
        if self.kind != use.kind:
            return False
        return use.thing.startswith(self.thing) if self.kind in BEGINNINGS else \
            use.thing == self.thing


def packages(tree):
    files = {file.path: file for file in tree.files}
    if TABLE not in files or LIST not in files:
        return
    listed, rows = lists(files[LIST]), table(files[TABLE])
    needed = {}
    for use in all_uses(tree, rows):
        row = max((one for one in rows if one.covers(use)), default=None,
                  key=lambda one: len(one.thing))
        if row is not None:
            needed.setdefault(row, []).append(use)
        else:
            yield Finding("packages", use.path, use.line,
                          f"uses the {use.kind} {use.thing}, and no package is known to bring it",
                          f"name its package in {TABLE}, and list that in {LIST}")
    yield from idle_findings(rows, needed, listed)
    for row, used in needed.items():
        yield from list_findings(row, used, listed)
    yield from owner_findings(needed)


def all_uses(tree, rows):
    names = {row.thing for row in rows if row.kind == "command"}
    for file in tree.files:
        yield from uses(file, tree, lambda name: name in names or shutil.which(name, path=PATH))


def idle_findings(rows, needed, listed):
    """Lines that nothing uses, and packages of which nothing is used."""
    for row in rows:
        if row.kind not in KINDS:
            yield Finding("packages", TABLE, row.line, f"no kind of thing is called {row.kind}",
                          "KIND THING PACKAGE [FILE], with one of " + " ".join(KINDS))
        elif row.kind == "also":
            yield from list_findings(row, [Use("also", row.thing, TABLE, row.line)], listed)
        elif row not in needed:
            yield Finding("packages", TABLE, row.line, f"nothing uses the {row.kind} {row.thing}",
                          "take the line out")
    used = {row.package for row in rows if row in needed or row.kind == "also"}
    for package, (line, _) in listed.items():
        if package not in used:
            yield Finding("packages", LIST, line, f"nothing that is used comes from {package}",
                          f"take it out, or say in {TABLE} what is used of it")


def list_findings(row, used, listed):
    """A package that is not in the list, or only in that of the tests."""
    if row.package in (BASE, MACHINE, OPTIONAL):
        return
    if row.package not in listed:
        yield Finding("packages", TABLE, row.line,
                      f"{row.thing} (used in {used[0].path}:{used[0].line}) comes from "
                      f"{row.package}, which is not installed", f"add it to a list in {LIST}")
        return
    line, name = listed[row.package]
    # Sanitizers and another compiler's library are of the trees that only tests build.
    early = [one for one in used if one.path.startswith(BUILDING) and one.kind != "flag"]
    if early and name != "build_packages":
        yield Finding("packages", LIST, line,
                      f"{early[0].path}:{early[0].line} needs {row.package} before any test",
                      "move it to build_packages")


def owner_findings(needed):
    """Lines whose package does not bring what is used, as far as this machine can tell."""
    known = Dpkg()
    places = {(row, use.thing): place_of(row, use.thing) for row, used in needed.items()
              if known.has(row.package) for use in used}
    owners = known.owners({place for place in places.values() if place})
    for (row, thing), place in places.items():
        if place is None:
            yield Finding("packages", TABLE, row.line,
                          f"{row.package} is installed, and there is no {row.kind} {thing}",
                          "name the package that brings it, or the place where it lies")
        elif not owners.get(place, set()) & known.brought_by(row.package):
            yield Finding("packages", TABLE, row.line,
                          f"{place} is of {' '.join(sorted(owners.get(place, ['no package'])))}, "
                          f"which {row.package} does not bring", "name the package that brings it")


def place_of(row, thing):
    """A file of this machine that shows the thing; None where there is none."""
    if row.place:
        return next(iter(sorted(glob.glob(row.place))), None)
    if row.kind == "command":
        return shutil.which(thing, path=PATH)
    if row.kind == "module":
        spec = importlib.util.find_spec(thing)
        return spec and (spec.origin or next(iter(spec.submodule_search_locations), None))
    for pattern in PLACES[row.kind]:
        for place in sorted(glob.glob(pattern.format(thing))):
            return place
    return None


def lists(file):
    """package -> (line, the list it stands in)"""
    out = {}
    text = re.sub(r"#[^\n]*", lambda comment: " " * len(comment.group(0)), file.text)
    for found in re.finditer(r"^(\w+_packages)=\(([^)]*)\)", text, re.M):
        for word in re.finditer(r"[\w.+-]+", found.group(2)):
            line = text.count("\n", 0, found.start(2) + word.start()) + 1
            out[word.group(0)] = (line, found.group(1))
    return out


def table(file):
    rows = []
    for number, line in enumerate(file.lines, 1):
        words = line.split("#")[0].split()
        if words:
            rows.append(Row(*(words + [""] * 3)[:4], number))
    return rows
