"""Mutants of what no check may be missing in, each one check dropped.

They are named by hand, one a check, because here none may be without a test: of the judgement that
stands between a person and the sugar (judgement.json), and of what salvages a damaged record and
seals a whole one (salvage.json).
"""
import json
import os
from typing import NamedTuple

HERE = os.path.dirname(os.path.abspath(__file__))


class Named(NamedTuple):
    """One check dropped: `was` stands once in the file at `path`, and becomes `becomes`."""
    drops: str
    path: str
    was: str
    becomes: str
    first: tuple = ()  # unit tests that are likely to see it: tried before all others

    def applied_to(self, text):
        return text.replace(self.was, self.becomes)


def read():
    out = []
    for name in ("judgement.json", "salvage.json"):
        with open(os.path.join(HERE, name), encoding="utf-8") as file:
            told = json.load(file)
        out += [Named(one["drops"], one["path"], one["was"], one["becomes"],
                      tuple(one.get("first", ()))) for one in told["mutants"]]
    return out


def place_fault(mutant, root):
    """Why its place is not found in that tree; nothing where it is."""
    with open(os.path.join(root, mutant.path), encoding="utf-8") as file:
        found = file.read().count(mutant.was)
    return "" if found == 1 else f"{mutant.path} has its place {found} times"
