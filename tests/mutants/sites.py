"""The places of C++ sources where one small mistake can be made, and the mistake.

A site is known by what stands around it and not by its line, so that it is found again in a file
that moved: the operator, the statement's words (`fragment`: without the names of namespaces), the
function it stands in, and which of several alike it is (`occurrence`).
"""
import bisect
import os
import re
import sys
from typing import NamedTuple

ROOT = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
sys.path.append(os.path.join(ROOT, "tests/rules"))
import source  # noqa: E402

# The folders a mistake is made in; those that are not there are passed over. Headers are left
# out: one mistake in a header builds the whole tree anew.
CORE = ["core/" + name for name in (
    "session", "clock", "time", "plan", "protocol", "findings", "record", "sheet", "lab", "code",
    "curve", "receiving", "case", "report")]
SHELL = ["app/patient/window", "app/patient/shell"]

_TOKEN = re.compile(r'"[^"\n]*"|\'[^\'\n]*\'|[A-Za-z_]\w*|\d[\w.\']*|'
                    r"::|->|<=>|<<|>>|[<>=!+*/&|%^-]=|&&|\|\||\+\+|--|\S")
# Where a statement begins and ends: braces of a block stand after a blank, those of a value do not.
_BETWEEN = re.compile(r";|(?<=\s)[{}]")
_NOT_JUDGED = ("static_assert", "QB_BELIEVE", "using", "template", "typedef")
_SWAPS = [("compare-loosened", {"<": "<=", "<=": "<", ">": ">=", ">=": ">"}),
          ("compare-flipped", {"==": "!=", "!=": "=="}),
          ("and-or", {"&&": "||", "||": "&&"}),
          ("plus-minus", {"+": "-", "-": "+", "+=": "-=", "-=": "+="})]
_SWAP_OF = {old: (name, new) for name, swaps in _SWAPS for old, new in swaps.items()}
# Binary operators stand between blanks here (clang-format), those of templates and types do not.
_BINARY = re.compile(r"(?<=\S) (<=|>=|==|!=|&&|\|\||\+=|-=|[<>+-])(?=[ \n])")
_RETURN = re.compile(r"\breturn (true|false);")
# One more in four hundred is noise, one more in three is a mistake: only numbers of one figure.
_LITERAL = re.compile(r"(?<![\w.'<])\d(?![\w.'>])")
_NOT_CALLED = {"return", "if", "while", "for", "switch", "reserve", "static_assert", "QB_BELIEVE"}


class Site(NamedTuple):
    """One mistake: where, and what the text from `start` to `end` becomes."""
    path: str
    function: str
    operator: str
    fragment: tuple
    occurrence: int
    line: int
    start: int
    end: int
    new: str

    @property
    def file(self):
        return os.path.basename(self.path)

    def applied_to(self, text):
        return text[:self.start] + self.new + text[self.end:]


def operators():
    return [name for name, _ in _SWAPS] + ["negated", "return-swapped", "call-dropped",
                                           "off-by-one"]


def paths_in(root, folders):
    """All sources of these folders, as paths from the root."""
    found = []
    for folder in folders:
        for below, _, names in os.walk(os.path.join(root, folder)):
            found += [os.path.relpath(os.path.join(below, name), root) for name in names
                      if name.endswith(".cpp")]
    return sorted(found)


def sites_of(root, folders):
    """Every site below these folders, in the order of files and lines."""
    return [site for path in paths_in(root, folders) for site in sites_in(root, path)]


def sites_in(root, path):
    with open(os.path.join(root, path), encoding="utf-8") as file:
        text = file.read()
    return sites_in_text(path, text)


def sites_in_text(path, text):
    code = source.blank(text)
    functions = [b for b in source.blocks(code)[0] if b.kind == "function"]
    between = [found.start() for found in _BETWEEN.finditer(code)]
    counted, out = {}, []
    for operator, start, end, new, anchor in in_order(edits(code)):
        fragment = fragment_around(code, between, anchor)
        if fragment[0] in _NOT_JUDGED or is_directive(code, anchor):
            continue
        line = code.count("\n", 0, anchor) + 1
        inside = [b for b in functions if b.first <= line <= b.last]
        function = name_of(max(inside, key=lambda b: b.first).head) if inside else ""
        key = (function, operator, fragment)
        counted[key] = counted.get(key, -1) + 1
        replacement = new if isinstance(new, str) else new(text[start:end])
        out.append(Site(path, function, operator, fragment, counted[key], line, start, end,
                        replacement))
    return out


def in_order(found):
    """By place, each once: a call below an if on a line of its own is come upon twice."""
    once = {(operator, start): (operator, start, *rest) for operator, start, *rest in found}
    return sorted(once.values(), key=lambda edit: (edit[4], edit[0]))


def edits(code):
    """(operator, start, end, new text or a function of the old one, place it is known by)"""
    for found in _BINARY.finditer(code):
        if code[:found.start()].endswith(("template", "operator")):
            continue
        name, new = _SWAP_OF[found.group(1)]
        yield name, found.start(1), found.end(1), new, found.start(1)
    for found in re.finditer(r"\bif \(", code):
        start, end = condition_of(code, found.end() - 1)
        if start is not None:
            yield "negated", start, end, lambda old: f"!({old})", found.start()
        call = call_at(code, closing(code, found.end() - 1) + 1)
        if call:
            yield "call-dropped", *call, "{}", call[0]
    for found in _RETURN.finditer(code):
        other = "false" if found.group(1) == "true" else "true"
        yield "return-swapped", found.start(1), found.end(1), other, found.start(1)
    for found in re.finditer(r"[;{}):]\n +(?=[\w(])", code):
        call = call_at(code, found.end())
        if call:
            yield "call-dropped", *call, "{}", call[0]
    for found in _LITERAL.finditer(code):
        yield ("off-by-one", found.start(), found.end(), str(int(found.group()) + 1), found.start())


def closing(code, i):
    """Where the bracket that opens at `i` is closed."""
    pairs = {"(": ")", "[": "]", "{": "}"}
    wanted = []
    for j in range(i, len(code)):
        if code[j] in pairs:
            wanted.append(pairs[code[j]])
        elif wanted and code[j] == wanted[-1]:
            wanted.pop()
            if not wanted:
                return j
    return len(code) - 1


def condition_of(code, i):
    """What an if asks, without its first part; nothing where it declares what it asks."""
    end = closing(code, i)
    inside = code[i + 1:end]
    first = inside.rfind(";") + 1
    start = i + 1 + first + (len(inside[first:]) - len(inside[first:].lstrip()))
    if re.match(r"(?:const )?[\w:<>*& ]+ [*&]?\w+ = ", code[start:end]):
        return None, None
    return start, end


def call_at(code, i):
    """From where to where a statement that only calls stands at `i`; None where none does."""
    while i < len(code) and code[i] in " \n":
        i += 1
    start, last = i, ""
    if code.startswith("(void)", i):
        i += len("(void)")
    found = re.compile(r"[A-Za-z_]\w*").match(code, i)
    while found:
        if found.group() in _NOT_CALLED:
            return None
        i = found.end()
        while i < len(code) and code[i] in "([":
            last = code[i]
            i = closing(code, i) + 1
        if i < len(code) and code[i] == ";":
            return (start, i + 1) if last == "(" else None
        step = re.compile(r"::|\.|->|\n *(?:\.|->)").match(code, i)
        found = step and re.compile(r"[A-Za-z_]\w*").match(code, step.end())
        last = ""
    return None


def is_directive(code, i):
    return code[code.rfind("\n", 0, i) + 1:].lstrip().startswith("#")


def fragment_around(code, between, i):
    """The words of the statement around `i`, from the mark before it to the mark after it."""
    after = bisect.bisect_left(between, i)
    start = between[after - 1] + 1 if after else 0
    return words_of(code[start:between[after] if after < len(between) else len(code)])


def words_of(code):
    """The tokens without qualifiers and without what literals say: `core::step::wait` and
    `step::wait` are both `wait`."""
    words = [word[0] + word[-1] if word[0] in "\"'" else word for word in _TOKEN.findall(code)]
    out = []
    for word in words:
        if word == "::":
            if out and re.match(r"\w", out[-1]):
                out.pop()
            continue
        out.append(word)
    return tuple(out)


def name_of(head):
    """A function's name; an operator's with the type of what it is given."""
    found = re.search(r"(\boperator\s*(?:\(\)|[^\s(]+)|~?\w+)\s*\(", head)
    if not found:
        return ""
    name = found.group(1)
    if not name.startswith("operator"):
        return name
    given = [w for w in words_of(head[found.end():]) if w != "const" and re.match(r"\w", w)]
    return " ".join([name] + given[:1])
