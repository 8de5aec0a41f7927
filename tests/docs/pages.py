"""A page of documentation taken apart: its fenced blocks, its words in backticks, its links.

Only as much Markdown as this house writes: fences of three backticks at the left margin.
"""
import re
from typing import NamedTuple

# What a block may be. A block of another kind would be a block that nobody checks.
KINDS = {"sh", "text", "json"}
MARKS = {"window", "install", "output"}


class Block(NamedTuple):
    """One fenced block: the line of its fence, its kind, its marks, its lines."""
    line: int
    kind: str
    marks: tuple
    lines: tuple

    def status(self):
        """The exit status each of its commands must have."""
        for mark in self.marks:
            if mark.startswith("status="):
                return int(mark.split("=")[1])
        return 0

    def commands(self):
        """Its commands with their lines: comments left out, continued lines put together."""
        out, whole, at = [], "", 0
        for number, line in enumerate(self.lines, self.line + 1):
            if not whole and (not line.strip() or line.lstrip().startswith("#")):
                continue
            at = at if whole else number
            whole += line
            if whole.endswith("\\"):
                whole = whole[:-1]
                continue
            out.append((at, whole))
            whole = ""
        return out + ([(at, whole)] if whole else [])


class Page:
    """One file, as text, blocks and prose."""

    def __init__(self, name, text):
        self.name, self.text = name, text
        self.blocks, self.prose = [], []
        inside, head, lines = False, None, []
        for number, line in enumerate(text.splitlines(), 1):
            if line.startswith("```"):
                if inside:
                    self.blocks.append(Block(head[0], head[1], head[2], tuple(lines)))
                else:
                    words = line[3:].split()
                    head = (number, words[0] if words else "", tuple(words[1:]))
                inside, lines = not inside, []
            elif inside:
                lines.append(line)
            else:
                self.prose.append((number, line))
        self.open_fence = head[0] if inside else 0

    def ticked(self):
        """The words in backticks, with their lines."""
        return [(number, word) for number, line in self.prose
                for word in re.findall(r"`([^`]+)`", line)]

    def links(self):
        """The targets of links and pictures, with their lines."""
        return [(number, target) for number, line in self.prose
                for target in re.findall(r"\]\(([^)\s]+)\)", line)]

    def first_paragraph(self):
        """The first words under the first heading, on one line."""
        out = []
        for _, line in self.prose:
            if line.startswith("#"):
                if out:
                    break
                continue
            if not line.strip() and out:
                break
            out += line.split()
        return " ".join(out)
