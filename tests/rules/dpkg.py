"""What this machine knows of its Debian packages: which is installed, needs which, owns what."""
import os
import re
import subprocess

FIELDS = ["Package", "db:Status-Abbrev", "Essential", "Priority", "Provides", "Depends",
          "Pre-Depends"]


class Dpkg:
    """Empty where there is no dpkg: then nothing can be compared."""

    def __init__(self):
        self.needs, self.base, self.providers = {}, set(), {}
        for line in told("dpkg-query", "-W", "-f=" + "\t".join(
                "${%s}" % field for field in FIELDS) + "\n").splitlines():
            name, status, essential, priority, provides, *needed = line.split("\t")
            if not status.startswith("ii"):
                continue
            self.needs[name] = names(",".join(needed))
            # Without apt nothing could be installed; the list of packages begins with it.
            if essential == "yes" or priority == "required" or name == "apt":
                self.base.add(name)
            for one in names(provides):
                self.providers.setdefault(one, set()).add(name)

    def has(self, package):
        return package == "base" or package in self.needs

    def brought_by(self, package):
        """The package and all that cannot be missing where it is installed."""
        waiting = list(self.base) if package == "base" else [package]
        seen = set()
        while waiting:
            one = waiting.pop()
            if one not in seen:
                seen.add(one)
                waiting += self.needs.get(one, [])
                waiting += self.providers.get(one, [])
        return seen

    def owners(self, paths):
        """path -> the packages that it belongs to; a path of no package is left out."""
        asked = {path: spellings(path) for path in paths}
        of = {}
        for line in told("dpkg-query", "-S", *sorted(set().union(*asked.values()))).splitlines():
            packages, _, spelling = line.rpartition(": ")
            if not line.startswith("diversion by"):
                of[spelling] = {one.split(":")[0] for one in packages.split(", ")}
        found = {path: set().union(*(of.get(one, set()) for one in asked[path])) for path in asked}
        return {path: packages for path, packages in found.items() if packages}


def told(*words):
    try:
        return subprocess.run(words, capture_output=True, text=True, check=False).stdout
    except FileNotFoundError:
        return ""


def names(dependencies):
    """The names in `a (>= 1), b | c:any`, without versions."""
    return re.findall(r"(?:^|[,|])\s*([a-z0-9][a-z0-9.+-]*)", dependencies)


def spellings(path):
    """How a package may name the file: /usr/bin/ls is /bin/ls to the package that brings it."""
    real = os.path.realpath(path)
    out = {path, real}
    out |= {one[len("/usr"):] for one in out if re.match(r"/usr/s?(bin|lib)", one)}
    return out
