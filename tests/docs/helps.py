"""What the programs say of themselves, taken apart: a help, and a man page before groff sets it."""
import re
from typing import NamedTuple


class Example(NamedTuple):
    """One thing to type: what it is good for, the status it ends with, its commands."""
    what: str
    status: int
    commands: tuple


def commands_of(lines):
    """Commands, put together where a line ends in a backslash."""
    out, whole = [], ""
    for line in lines:
        whole += line + "\n"
        if not line.endswith("\\"):
            out.append(whole.rstrip("\n"))
            whole = ""
    return tuple(out + ([whole] if whole else []))


class Help:
    """One `--help`: its sections by their headings, its options, its examples."""

    def __init__(self, text):
        self.text, self.lines, self.sections = text, text.splitlines(), {}
        for number, line in enumerate(self.lines[:-1]):
            heading = re.match(r"([A-Z][^:]*):$", line)
            if heading and self.lines[number + 1].startswith("  "):
                below = []
                for one in self.lines[number + 1:]:
                    if not one:
                        break
                    below.append(one)
                self.sections[heading.group(1)] = below

    def examples(self):
        out, lines, head = [], [], None
        for line in self.sections.get("Examples", []) + ["  "]:
            if line.startswith("    "):
                lines.append(line[4:])
                continue
            if head is not None:
                status = re.search(r" \(exit status (\d)\):$", head)
                what = head[:status.start()] if status else head.rstrip(":")
                out.append(Example(what, int(status.group(1)) if status else 0,
                                   commands_of(lines)))
            head, lines = line[2:], []
        return out

    def options(self):
        """(name, what it is for) of all options and arguments; the second may be empty."""
        out = []
        for heading, lines in self.sections.items():
            if not (heading.startswith("Options") or heading == "Arguments"):
                continue
            for line in lines:
                if re.match(r"  \S", line):
                    name, _, what = line[2:].partition("  ")
                    out.append([name.strip(), what.strip()])
                elif out:
                    out[-1][1] = (out[-1][1] + " " + line.strip()).strip()
        return out

    def commands(self):
        """Names of the commands it lists, as they are typed."""
        taken = ("Examples", "Arguments")
        return [re.match(r"  (\S+(?: \S+)*)", line).group(1)
                for heading, lines in self.sections.items()
                if heading not in taken and not heading.startswith("Options")
                for line in lines if re.match(r"  [a-z]", line)]


def unescaped(text):
    """A line of the page as a reader sees it."""
    for sign, letter in (("\\&", ""), ("\\-", "-"), ("\\(aq", "'"), ("\\(ga", "`"),
                         ("\\(ha", "^"), ("\\(ti", "~"), ("\\e", "\\")):
        text = text.replace(sign, letter)
    return re.sub(r"\\f[BIR]", "", text)


class Man:
    """A man page: for each heading the text under it and the examples."""

    def __init__(self, text):
        self.text, self.parts = text, {}
        at, last, example, lines = "", "", None, []
        for line in text.splitlines():
            heading = re.match(r"\.S[SH] (.*)$", line)
            begun = re.match(r'\.\\" example (\d)$', line)
            if heading:
                at = unescaped(heading.group(1))
                self.parts.setdefault(at, ([], []))
            elif begun:
                example, lines = int(begun.group(1)), []
            elif line == ".EE" and example is not None:
                what = re.sub(r"( \(exit status \d\))?:$", "", last)
                self.parts[at][1].append(Example(what, example, commands_of(lines)))
                example = None
            elif not line.startswith("."):
                if example is None:
                    last = unescaped(line)
                    self.parts.setdefault(at, ([], []))[0].append(last)
                else:
                    lines.append(unescaped(line))

    def examples(self, heading):
        return self.parts.get(heading, ([], []))[1]

    def words(self, heading):
        return " ".join(self.parts.get(heading, ([], []))[0])
