"""How the house is cut: how much a folder and a function hold, what a header says, its formatting.

A folder is one idea that is seen whole in its list of files, a function is read top to bottom, and
a header is a contract, and says so. How long a file is follows from that and is not asked.
"""
import os
import re
import subprocess

from source import Finding, blocks

# A header and the source under it are one; folders below a folder are counted by themselves.
FOLDER_SOURCES = 25
FUNCTION_LINES = 70
LINE_COLUMNS = 100
SCRIPT = (".py", ".sh", ".cjs", ".mjs", ".cmake", "CMakeLists.txt")
FORMATTED_AT_ONCE = 60


def size(tree):
    folders = {}
    for file in tree.cpp():
        folder, name = os.path.split(file.path)
        folders.setdefault(folder, set()).add(os.path.splitext(name)[0])
    for folder, sources in sorted(folders.items()):
        if len(sources) > FOLDER_SOURCES:
            yield Finding("size", folder, 1, f"{len(sources)} sources, at most {FOLDER_SOURCES}",
                          "find the two ideas in it and give each a folder")
    for file in tree.cpp():
        if not file.text.strip():
            yield Finding("size", file.path, 1, "a file with nothing in it", "fill it or delete it")
        for block in blocks(file.code)[0]:
            length = block.last - block.first + 1
            if block.kind == "function" and length > FUNCTION_LINES:
                yield Finding("size", file.path, block.first,
                              f"a function of {length} lines, at most {FUNCTION_LINES}",
                              "keep the branches in the parent, move the computing to helpers")


def columns(tree):
    for file in tree.files:
        if not (file.is_cpp() or is_script(file)):
            continue
        for number, line in enumerate(file.lines, 1):
            if len(line) > LINE_COLUMNS:
                yield Finding("columns", file.path, number,
                              f"{len(line)} columns, at most {LINE_COLUMNS}", "break the line")


def is_script(file):
    return file.path.endswith(SCRIPT) or file.text.startswith("#!")


def first_comment(tree):
    """A header or a script says what it is; a source is explained by the header it fills."""
    for file in tree.files:
        lines = [line for line in file.lines[:4] if line.strip() and not line.startswith("#!")]
        first = lines[0] if lines else ""
        if file.path.endswith(".hpp"):
            good = first.startswith("//") and len(first) > 12
        elif is_script(file):
            good = re.match(r'(#|//|"""|/\*)\s*\S', first) is not None
        else:
            continue
        if not good:
            yield Finding("first-comment", file.path, 1, "the file does not start with a comment",
                          "say in one sentence what is here, in one why it exists")


_DECLARATION = re.compile(r"^(?:template|struct|class|enum|\[\[|[a-zA-Z_:][\w:<>,*&\s]*\()")
_FORWARD = re.compile(r"^(?:struct|class|enum class)\s+\w+;$")
_MACRO = re.compile(r"^#define\s+QB_")


def public_comments(tree):
    """A declaration in a header of core or app, at the left margin, stands under a comment.

    One comment may stand over a group of declarations without a blank line between them.
    """
    for file in tree.cpp("core", "app"):
        if not file.path.endswith(".hpp"):
            continue
        covered, inside = False, False
        for number, line in enumerate(file.lines, 1):
            bare = line.strip()
            if not bare:
                covered = covered and inside
            elif line.startswith("//"):
                covered = True
            elif line.startswith("namespace"):
                covered = False
            elif is_declaration(line) and not inside:
                following = file.lines[number:number + 1]
                names_a_type = line.startswith("template") and following[:1] and \
                    following[0].startswith("using")
                if not covered and "//" not in line and not names_a_type:
                    yield Finding("public-comments", file.path, number,
                                  f"no comment on: {bare[:60]}",
                                  "say above it what it means: unit, range, refusals, source")
            inside = is_inside(line, inside)


def is_declaration(line):
    if _FORWARD.match(line):
        return False
    return bool(_DECLARATION.match(line) or _MACRO.match(line))


def is_inside(line, inside):
    """Whether the next line still belongs to a declaration that began at the left margin."""
    if line.startswith(("namespace", "#", "//", "} // namespace")):
        return False
    if line.startswith(("}", ")")):
        return not line.rstrip().endswith((";", "}"))
    if inside or is_declaration(line):
        return not re.search(r"[;}]\s*(//.*)?$", line) or line.startswith(" ")
    return False


def formatted(tree):
    """clang-format would change nothing."""
    files = [file.path for file in tree.cpp()]
    for start in range(0, len(files), FORMATTED_AT_ONCE):
        told = subprocess.run(
            ["clang-format", "--dry-run", "--style=file"] + files[start:start + FORMATTED_AT_ONCE],
            cwd=tree.root, capture_output=True, text=True, check=False)
        seen = set()
        for line in told.stderr.splitlines():
            found = re.match(r"(.+?):(\d+):\d+: (?:warning|error):", line)
            if found and found.group(1) not in seen:
                seen.add(found.group(1))
                yield Finding("formatted", found.group(1), int(found.group(2)),
                              "not as clang-format writes it", "clang-format -i " + found.group(1))
        if told.returncode != 0:
            yield Finding("formatted", ".clang-format", 1, "clang-format failed: " +
                          told.stderr[-200:], "see that it runs by hand")
