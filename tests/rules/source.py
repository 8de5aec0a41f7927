"""What the house rules look at: the files of a tree, and C++ taken apart just far enough.

A rule is a function from a Tree to findings. It may be wrong about exotic C++, never about the
plain C++ this house writes; where it is wrong, the code is usually not plain enough.
"""
import os
import re
from typing import NamedTuple

# In a second working tree .git is a file.
SKIPPED_FOLDERS = {".git", "build", "node_modules", "__pycache__", "bad"}
CPP = (".cpp", ".hpp")


class Finding(NamedTuple):
    """One offence: which rule, where, what, and what to do about it."""
    rule: str
    path: str
    line: int
    what: str
    cure: str

    def __str__(self):
        return f"{self.path}:{self.line}: {self.what}; cure: {self.cure} [{self.rule}]"


class Source:
    """One text file. `code` is its text with comments and literals blanked, lines kept."""

    def __init__(self, root, path, glue=None):
        self.root, self.path = root, path
        with open(os.path.join(root, path), "rb") as file:
            self.text = file.read().decode("utf-8", "replace")
        if glue:
            self.text = self.text.replace(glue, "")
        self.lines = self.text.splitlines()
        self._code = None

    def is_cpp(self):
        return self.path.endswith(CPP)

    def under(self, *folders):
        return any(self.path.startswith(folder.rstrip("/") + "/") for folder in folders)

    @property
    def code(self):
        if self._code is None:
            self._code = blank(self.text)
        return self._code

    @property
    def code_lines(self):
        return self.code.splitlines()

    def includes(self):
        """(line number, what is between the quotes or angle brackets)"""
        for number, line in enumerate(self.lines, 1):
            found = re.match(r'\s*#\s*include\s*[<"]([^">]+)[">]', line)
            if found:
                yield number, found.group(1)


class Tree:
    """All text files below a root, without what is built, fetched or bad on purpose.

    `glue` is taken out of every text: with it a bad sample can hold a forbidden word in halves.
    """

    def __init__(self, root, glue=None):
        self.root = root
        self.files = []
        for folder, folders, names in os.walk(root):
            folders[:] = sorted(f for f in folders if not self.skips(folder, f))
            for name in sorted(set(names) - SKIPPED_FOLDERS):
                full = os.path.join(folder, name)
                if not os.path.islink(full) and is_text(full):
                    self.files.append(Source(root, os.path.relpath(full, root), glue))

    def skips(self, folder, name):
        at_top = os.path.abspath(folder) == os.path.abspath(self.root)
        if name == "bad":
            return os.path.basename(folder) == "rules"
        return name in SKIPPED_FOLDERS and (name != "build" or at_top)

    def cpp(self, *folders):
        return [f for f in self.files if f.is_cpp() and (not folders or f.under(*folders))]


def is_text(path):
    with open(path, "rb") as file:
        return b"\0" not in file.read(4096)


_TOKEN = re.compile(
    r'//[^\n]*|/\*.*?\*/|R"(?P<mark>[^()\s\\]{0,16})\(.*?\)(?P=mark)"'
    r'|"(?:\\.|[^"\\\n])*"|(?<![0-9a-fA-F])\'(?:\\.|[^\'\\\n])+\'', re.S)


def blank(text):
    """Comments become spaces; literals keep their quotes and lose their content."""
    def hide(found):
        token = found.group(0)
        keep = re.sub(r"[^\n]", " ", token)
        if token.startswith(("//", "/*")):
            return keep
        return token[0] + keep[1:-1] + token[-1]
    return _TOKEN.sub(hide, text)


class Block(NamedTuple):
    """A pair of braces: what it is (scope, function, other), what stands before it, its lines."""
    kind: str
    head: str
    first: int
    last: int
    depth: int


_SCOPE = re.compile(r"\b(namespace|class|struct|union|extern)\b[^()=;]*$")
_CONTROL = re.compile(r"^\s*(?:else\s+)?(if|for|while|switch|catch|do|else|try|enum|return)\b")
_NAMESPACES = ("namespace", "extern", "inline namespace")
_INIT_LIST = re.compile(r"\)[\s\w]*:[^:].*[\w>]$", re.S)


def blocks(code):
    """Every brace block, and the statements that stand directly in a namespace.

    Returns (list of Block, list of (statement text, line)).
    """
    found, statements = walk(code)
    return found, [(text, line) for text, line, in_class in statements if not in_class]


def declarations(code):
    """(statement text, line) of all that stands directly in a namespace or a class."""
    return [(text, line) for text, line, _ in walk(code)[1]]


def walk(code):
    found, statements, stack = [], [], []
    head, head_line, line, i = "", 1, 1, 0
    while i < len(code):
        char = code[i]
        if char == "#" and not head.strip():
            end = end_of_directive(code, i)
            line += code.count("\n", i, end)
            head, i = "", end
            continue
        if char == "{" and in_scope(stack) and (
                _INIT_LIST.search(head.rstrip()) or head.count("(") > head.count(")")):
            end = matching(code, i)
            line += code.count("\n", i, end + 1)
            head += "{}"
            i = end + 1
            continue
        if char == "{":
            stack.append((kind_of(head, stack), head.strip(), head_line))
            head = ""
        elif char == "}":
            if stack:
                kind, text, first = stack.pop()
                found.append(Block(kind, text, first, line, len(stack)))
            head = ""
        elif char == ";":
            if head.strip() and in_scope(stack):
                in_class = not all(one[1].startswith(_NAMESPACES) for one in stack)
                statements.append((head.strip(), head_line, in_class))
            head = ""
        else:
            if not head.strip() and not char.isspace():
                head_line = line
            head += char
        if char == "\n":
            line += 1
        i += 1
    return found, statements


def end_of_directive(code, i):
    while True:
        end = code.find("\n", i)
        if end < 0:
            return len(code)
        if code[end - 1] != "\\":
            return end
        i = end + 1


def matching(code, i):
    depth = 0
    for j in range(i, len(code)):
        depth += {"{": 1, "}": -1}.get(code[j], 0)
        if depth == 0:
            return j
    return len(code) - 1


def in_scope(stack):
    return all(kind == "scope" for kind, _, _ in stack)


def kind_of(head, stack):
    text = re.sub(r"\btemplate\s*<[^{;]*?>\s*(?=\b(?:class|struct|union)\b)", "", head.strip())
    text = re.sub(r"\[\[.*?\]\]", "", text)
    if _SCOPE.search(text) and not re.search(r"\)\s*$", text):
        return "scope"
    if in_scope(stack) and "(" in text and not _CONTROL.match(text) and not re.search(
            r"(?<!operator)=\s*[\w:<>]*\s*$", text):
        return "function"
    return "other"
