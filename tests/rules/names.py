"""One name, one meaning: what two folders declare in the same namespace has two names; and each
folder has a namespace of its own.

Two headers that declare the same type are a clash the linker may not notice, and the same function
in two folders is an overload that nobody meant. Overloads within a folder are one idea.
"""
import os
import re

from source import Finding, blocks

_TYPE = re.compile(r"^(?:template\s*<.*>\s*)?(?:struct|class|union|enum(?:\s+(?:class|struct))?)"
                   r"\s+(\w+)\s*(?:final\s*)?(?::[^:].*)?$", re.S)
_ALIAS = re.compile(r"^(?:template\s*<.*>\s*)?using\s+(\w+)\s*=", re.S)
_FUNCTION = re.compile(r"^[^(=]*?(?<![\w:~])(\w+)\s*\(", re.S)
_VALUE = re.compile(r"^(?:inline|extern|constexpr|static)\b[^=({]*?\b(\w+)\s*(?:=|\{|$)", re.S)
_NAMESPACE = re.compile(r"^(?:inline\s+)?namespace\s+((?:inline\s+|[\w:]+)+)$")
# A namespace whose names need no prefix: for the rest of qb they stand in qb.
_INLINE = re.compile(r"::inline\s+\w+")
# What all speak stands in qb itself; a slice's folders have one namespace.
GROUND = "core/base"
SLICES = {"app/lab": "qb::lab", "app/patient/screens": "qb::inline screens",
          "app/patient/command": "qb::patient", "app/patient/manual": "qb::patient"}


def clashes(tree):
    seen = {}
    for file in tree.cpp("core", "app"):
        if not file.path.endswith(".hpp"):
            continue
        for name, line in declared(file.code):
            folder = os.path.dirname(file.path)
            first = seen.setdefault(name, (folder, file.path))
            if first[0] != folder:
                yield Finding("clashes", file.path, line, f"{name} is declared in {first[1]} too",
                              "give one of them the word that tells them apart, or the folder a "
                              "namespace of its own")


def homes(tree):
    """Each folder's namespace is its own, and its files stand in no other."""
    owner, home = {}, {}
    for file in tree.cpp("core", "app"):
        if file.under(GROUND):
            continue
        slice_of = next((one for one in SLICES if file.under(one)), os.path.dirname(file.path))
        for line, space in spaces_of(file.code):
            first = home.setdefault(slice_of, SLICES.get(slice_of, space))
            first_of = owner.setdefault(space, slice_of)
            if space != first or slice_of != first_of and SLICES.get(slice_of) != space:
                yield Finding("homes", file.path, line, f"namespace {space} in {slice_of}",
                              f"the folder's own, {first}, which no other folder has")


def spaces_of(code):
    """(line, the folder's part) of each namespace that opens at the margin and has more in it than
    names announced."""
    braces, _ = blocks(code)
    lines = code.splitlines()
    for block in braces:
        found = _NAMESPACE.match(block.head)
        if block.depth or not found or not found.group(1).startswith("qb"):
            continue
        within = [line for line in lines[block.first:block.last - 1] if line.strip()]
        if all(re.match(r"(?:struct|class) \w+;", line) for line in within):
            continue
        yield block.first, re.match(r"qb(?:::(?:inline )?\w+)?", found.group(1)).group(0)


def declared(code):
    """(name with its namespaces, line) of all that stands directly in a namespace."""
    braces, statements = blocks(code)
    spaces = [(_INLINE.sub("", found.group(1)), block) for block in braces
              if (found := _NAMESPACE.match(block.head))]
    bodies = [(block.head, block.first) for block in braces
              if block.depth == len(around(spaces, block.first, block.last))]
    for text, line in bodies:
        name = name_of(text, _TYPE, _FUNCTION)
        if name:
            yield "::".join(around(spaces, line, line) + [name]), line
    for text, line in statements:
        name = name_of(text, _ALIAS, _FUNCTION, _VALUE)
        if name:
            yield "::".join(around(spaces, line, line) + [name]), line


def around(spaces, first, last):
    """The namespaces that these lines stand in, from the outside in."""
    holding = [(block.depth, name) for name, block in spaces
               if block.first <= first and last <= block.last
               and (block.first, block.last) != (first, last)]
    return [name for _, name in sorted(holding)]


def name_of(head, *shapes):
    text = re.sub(r"\[\[.*?\]\]\s*", "", head, flags=re.S).strip()
    if "operator" in text or text.startswith(("namespace", "friend", "static_assert", "extern \"")):
        return None
    if re.match(r"(?:struct|class|enum)\b[^{]*$", text) and _TYPE not in shapes:
        return None
    for shape in shapes:
        found = shape.match(text)
        if found:
            return found.group(1)
    return None
