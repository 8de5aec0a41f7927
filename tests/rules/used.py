"""What a file uses of the machine, as far as its text shows: commands, modules, libraries, headers,
files by their absolute path, fonts, flags that ask for a library. Asked by packages.py.
"""
import functools
import os
import re
from typing import NamedTuple

import python_words
import shell_words

TABLE = "tests/rules/packages.txt"
# A flag that asks for a library of the compiler's.
FLAG = re.compile(r"(?<![\w-])(-fsanitize|-stdlib|-fuse-ld|-fprofile-instr-generate)\b")
FILE = re.compile(r'["\'](/(?:usr|etc|opt|var|bin|lib|sbin|proc|sys|dev|run|media)'
                  r'(?:/[^"\':]*)?)["\']')
FONT = re.compile(r"\bNoto ?Sans(?: (?!Regular|Bold)[A-Z]\w+)?")
CMAKE = {"package": re.compile(r"\bfind_package\((\S+?)[\s)]"),
         "library": re.compile(r"\bfind_library\(\w+ (\S+?)[\s)]"),
         "command": re.compile(r"\bfind_program\(\w+ (\S+?)[\s)]")}
PKG_CONFIG = re.compile(r"\bpkg_check_modules\(([^)]*)\)")
BLOCK = re.compile(r"^```sh[^\n]*\n(.*?)^```", re.M | re.S)


class Use(NamedTuple):
    """Somewhere in the tree a thing is used."""
    kind: str
    thing: str
    path: str
    line: int


def uses(file, tree, known):
    """Every thing that a file uses, as far as it can be seen. A list of words that nothing is seen
    to start is taken for a command when its first word is a `known` one."""
    if file.path == TABLE or file.path.startswith("tests/fixtures/"):
        return
    first = file.lines[0] if file.lines else ""
    if first.startswith("#!"):
        yield Use("command", first.split()[-1].split("/")[-1], file.path, 1)
    if file.path.endswith(".py") or first.startswith("#!") and "python" in first:
        yield from python_uses(file, tree, known)
    elif file.path.endswith(".sh") or first.startswith("#!") and first.endswith("sh"):
        for line, name in shell_words.commands(file.text, shell_functions(tree)):
            yield Use("command", name, file.path, line)
    elif file.path in ("README.md", "DEVELOPERS.md"):
        for block in BLOCK.finditer(file.text):
            above = file.text.count("\n", 0, block.start(1))
            for line, name in shell_words.commands(block.group(1)):
                yield Use("command", name, file.path, above + line)
    elif file.is_cpp():
        yield from cpp_uses(file)
    elif file.path.endswith("CMakeLists.txt"):
        yield from cmake_uses(file)
    yield from words_of(file)


def python_uses(file, tree, known):
    seen = python_words.Uses(file.text)
    for line, name in sorted(seen.commands | {one for one in seen.maybe if known(one[1])}):
        yield Use("command", name, file.path, line)
    for line, name in sorted(python_words.foreign(seen.modules, python_files(tree))):
        yield Use("module", name, file.path, line)
    for line, name in sorted(seen.shared):
        yield Use("shared", name, file.path, line)


def cpp_uses(file):
    for line, name in file.includes():
        ours = name.startswith(("core/", "app/", "tests/"))
        if not ours and ("." in name or "/" in name):
            yield Use("header", name, file.path, line)


def cmake_uses(file):
    for number, line in enumerate(file.lines, 1):
        line = line.split("#")[0]
        for kind, pattern in CMAKE.items():
            for found in pattern.finditer(line):
                yield Use(kind, found.group(1), file.path, number)
        for found in PKG_CONFIG.finditer(line):
            for name in found.group(1).split()[1:]:
                if name not in ("REQUIRED", "IMPORTED_TARGET", "QUIET"):
                    yield Use("pkg-config", name, file.path, number)


def words_of(file):
    """Files by their absolute path, fonts by name, flags that ask for a library."""
    is_text = file.path.endswith((".md", ".json", ".txt")) and "CMakeLists" not in file.path
    if is_text or re.fullmatch(r"tests/rules/\w+\.py", file.path):  # the rules hold patterns
        return
    for number, line in enumerate(file.lines, 1):
        for found in FILE.finditer(line):
            yield Use("file", found.group(1), file.path, number)
        if file.is_cpp():
            for found in FONT.finditer(line):
                yield Use("font", found.group(0).replace(" ", ""), file.path, number)
        else:
            for found in FLAG.finditer(line):
                yield Use("flag", found.group(1), file.path, number)


@functools.lru_cache(maxsize=4)
def shell_functions(tree):
    return frozenset(name for file in tree.files
                     if file.path.endswith(".sh") or file.text.startswith("#!")
                     for name in shell_words.functions(file.text))


@functools.lru_cache(maxsize=4)
def python_files(tree):
    return frozenset(os.path.basename(file.path)[:-len(".py")] for file in tree.files
                     if file.path.endswith(".py"))
