"""The kept list of mutants (drawn.json): how one is written down, and found again in a later tree.

Each word of a kept mutant (statement, function, file's name) may be the one it has become since, by
renames.json: old word -> new word, or a list of new ones. What is not found, or found at several
places, is said with the reason and never passed over. Then the list must name its `successor`:
where the same mistake can be made today, written like the mutant (`tests/mutants/find` prints it).
"""
import json
import os

import sites

HERE = os.path.dirname(os.path.abspath(__file__))
# A shorter statement says too little to be the same one in another function of another file.
TELLING_WORDS = 8


def read(name):
    with open(os.path.join(HERE, name), encoding="utf-8") as file:
        return json.load(file)


def read_drawn():
    return read("drawn.json")["mutants"]


def read_renames():
    return {old: [new] if isinstance(new, str) else new
            for old, new in read("renames.json").items()}


def written(site, text):
    """A mutant as it stands in the list; `was` and `becomes` are for people."""
    lines = text.splitlines()
    changed = site.applied_to(text).splitlines()
    return {"file": site.file, "function": site.function, "operator": site.operator,
            "fragment": " ".join(site.fragment), "occurrence": site.occurrence,
            "was": lines[site.line - 1].strip(), "becomes": changed[site.line - 1].strip()}


class Finder:
    """All sites of a tree, asked for kept mutants."""

    def __init__(self, root, renames, folders=None):
        self.renames = renames
        self.by_operator = {}
        for site in sites.sites_of(root, folders or sites.CORE + sites.SHELL):
            self.by_operator.setdefault(site.operator, []).append(site)

    def find(self, mutant):
        """(site, "") or (None, why not); its successor stands for it where it has one."""
        site, why = self.find_as_is(mutant)
        if site is None and "successor" in mutant:
            return self.find_as_is(mutant["successor"])
        return site, why

    def find_as_is(self, mutant):
        alike = [s for s in self.by_operator.get(mutant["operator"], [])
                 if self.same_words(mutant["fragment"].split(" "), s.fragment)]
        if not alike:
            return None, "no such statement"
        # The file and the function choose among several, and may have changed where there is one.
        file = [s for s in alike if self.same_file(mutant["file"], s.file)]
        function = [s for s in file or alike if self.same_words(mutant["function"].split(" "),
                                                                s.function.split(" "))]
        place = function or file or alike
        if not function and not file and len(place[0].fragment) < TELLING_WORDS:
            return None, f"such a statement only in {place[0].path} {place[0].function}"
        if len({(s.path, s.function) for s in place}) > 1:
            return None, "at several places: " + ", ".join(
                sorted({f"{s.path} {s.function}" for s in place}))
        counted = [s for s in place if s.occurrence == mutant["occurrence"]]
        if counted:
            return counted[0], ""
        return None, f"only {len(place)} alike in {place[0].path} {place[0].function}"

    def same_words(self, kept, now):
        return len(kept) == len(now) and all(self.is_now(old, new) for old, new in zip(kept, now))

    def is_now(self, old, new):
        return old == new or new in self.renames.get(old, ())

    def same_file(self, old, new):
        return self.is_now(old, new) or self.is_now(old.removesuffix(".cpp"),
                                                    new.removesuffix(".cpp"))


def write_drawn(mutants):
    with open(os.path.join(HERE, "drawn.json"), "w", encoding="utf-8") as file:
        json.dump({"mutants": mutants}, file, indent=1, ensure_ascii=False)
        file.write("\n")
