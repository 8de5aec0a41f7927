"""What nothing in the programs uses: headers that nobody includes, functions that nobody calls.

A function is dead when a header of core or app declares it and no code of core or app mentions its
name outside its own definition; a call by a dead function is none. By names alone: a dead function
that shares its name with something living (an overload, a member of another class, a variable) is
not seen. Operators and constructors are not looked at.
"""
import re
from collections import Counter, defaultdict

from source import Finding, blocks, declarations

_WORD = re.compile(r"[A-Za-z_]\w*")
_NO_FUNCTION = re.compile(r"\s*(?:using|typedef|static_assert|friend|return)\b")
_TEMPLATE_WORDS = re.compile(r"<[^<>()]*(?:\([^()]*\))?[^<>()]*>")
# What may stand before a constructor's name.
_NOTHING = re.compile(r"(?:\s|explicit|constexpr|public:|private:|protected:|template)*\Z")
# Called by the language and by nobody's name.
_BY_LANGUAGE = {"main", "begin", "end", "what"}


def dead(tree):
    yield from unused_headers(tree)
    yield from uncalled_functions(tree)


def unused_headers(tree):
    used = {name for file in tree.cpp() for _, name in file.includes()}
    for file in tree.cpp("core", "app", "tests"):
        if file.path.endswith(".hpp") and file.path not in used:
            yield Finding("dead", file.path, 1, "nothing includes this header",
                          "use it or delete it")


def uncalled_functions(tree):
    mentions, bodies, places = Counter(), defaultdict(Counter), {}
    for file in tree.cpp("core", "app"):
        mentions.update(_WORD.findall(file.code))
        for head, line, body in functions(file):
            name = name_of(head)
            if name is None:
                continue
            mentions[name] -= 1  # to be declared or defined is no use
            bodies[name].update(_WORD.findall(body))
            if file.path.endswith(".hpp"):
                places.setdefault(name, (file.path, line))
    for name in sorted(without_caller(mentions, bodies, set(places) - _BY_LANGUAGE),
                       key=places.get):
        yield Finding("dead", *places[name], f"only tests call {name}(), if anybody does",
                      "call it where it was meant to be called, or remove it with its test")


def without_caller(mentions, bodies, names):
    """Those that are mentioned nowhere but in definitions of their own and of each other."""
    out, found = set(), True
    while found:
        found = {name for name in names - out if mentions[name] <= bodies[name][name]}
        for name in found:
            own = bodies[name].pop(name, 0)
            mentions.subtract(bodies[name])
            mentions[name] -= own
        out |= found
    return out


def functions(file):
    """(head, line, body) of all that is declared or defined directly in a namespace or a class."""
    lines = file.code_lines
    for block in blocks(file.code)[0]:
        if block.kind == "function":
            text = "\n".join(lines[block.first - 1:block.last])
            yield block.head, block.first, text[text.find("{"):]
    for head, line in declarations(file.code):
        yield head, line, ""


def name_of(head):
    """The name of the function that a head declares; None when it declares none."""
    head = re.sub(r"\[\[.*?\]\]|\balignas\([^)]*\)|\bexplicit\([^)]*\)", " ", head)
    while (bare := _TEMPLATE_WORDS.sub(" ", head)) != head:
        head = bare
    found = re.search(r"([A-Za-z_]\w*)\s*\(", head)
    if found is None or "operator" in head or _NO_FUNCTION.match(head):
        return None
    before, name = head[:found.start()], found.group(1)
    is_constructor = _NOTHING.match(before) or re.search(rf"\b{name}\s*::\s*\Z", before)
    return None if "=" in before or "~" in before or is_constructor else name
