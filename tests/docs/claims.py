"""What a page claims beside its commands: paths, names in the code, pictures, options, folders.

A page that names a file or a function which was renamed leads its reader astray.
"""
import glob
import os
import re
import subprocess

TOP = ("app", "assets", "core", "demo-data", "tests", ".ci")
ENDINGS = (".md", ".hpp", ".cpp", ".json", ".py", ".sh", ".txt", ".cjs")
PLACEHOLDER = re.compile(r"(?<![A-Za-z])[A-Z]{2,}(?![a-z])")
NAME = re.compile(r"^[a-z_][a-z0-9_]*(?:::[a-z_][a-z0-9_]*)*(?:\(\))?$")
LINK_AWAY = ("http:", "https:", "#", "mailto:")
MOST_PICTURE_BYTES = 120000
LEAST_WORDS = 25
MOST_LINES = 430  # it holds the glossary, a row for each folder, and what each suite costs
MOST_README_LINES = 170
COSTS = "| seconds of processor |"  # the head of the table of what each suite costs
# A house word: what a thing is, not what it lacks.
NEVER = re.compile("head" + "less", re.I)


class Names:
    """Every word of the code and of the data, and every file's name, looked up quickly."""

    def __init__(self, root):
        self.root, self.words, self.files = root, set(), set()
        for top in TOP + ("CMakeLists.txt",):
            for path in files_below(os.path.join(root, top)):
                self.files.add(os.path.basename(path))
                if path.endswith((".png",)):
                    continue
                with open(path, encoding="utf-8", errors="replace") as file:
                    self.words |= set(re.findall(r"[A-Za-z_][A-Za-z0-9_]*", file.read()))

    def path_is_there(self, path):
        if "/" not in path:
            return path in self.files or os.path.exists(os.path.join(self.root, path))
        return bool(glob.glob(os.path.join(self.root, path)))


def files_below(path):
    if os.path.isfile(path):
        return [path]
    out = []
    for folder, below, names in os.walk(path):
        below[:] = [one for one in below if one not in ("__pycache__", "node_modules", "docs")]
        out += [os.path.join(folder, name) for name in names]
    return out


def is_path(word):
    """Whether a word in backticks is a path of this repository, without a placeholder in it."""
    if " " in word or PLACEHOLDER.search(word.replace("README.md", "").replace(
            "DEVELOPERS.md", "").replace("CMakeLists.txt", "")):
        return False
    if "/" in word:
        return word.split("/")[0] in TOP
    return word.endswith(ENDINGS) and not word.startswith(".")


def is_name(word):
    """Whether it is a name in our code: the library's own are not looked up."""
    return bool(NAME.match(word)) and not word.startswith("std::") and (
        "_" in word or "::" in word or word.endswith("()"))


def ticked_faults(page, names):
    faults = []
    for line, word in page.ticked():
        if is_path(word):
            if not names.path_is_there(word.rstrip("/")):
                faults.append((line, f"there is no {word}"))
        elif is_name(word):
            missing = [one for one in word.rstrip("()").split("::") if one not in names.words]
            faults += [(line, f"no {one} in the code, for {word}") for one in missing]
    return faults


def link_faults(page, root):
    faults = []
    for line, target in page.links():
        if target.startswith(LINK_AWAY):
            continue
        path = os.path.join(root, target.split("#")[0])
        if not os.path.exists(path):
            faults.append((line, f"the link leads nowhere: {target}"))
        elif target.endswith(".png"):
            with open(path, "rb") as file:
                picture = file.read()
            if picture[:8] != b"\x89PNG\r\n\x1a\n" or len(picture) > MOST_PICTURE_BYTES:
                faults.append((line, f"no PNG of at most {MOST_PICTURE_BYTES} bytes: {target}"))
    return faults


def readme_faults(page):
    """The job comes first, a picture is there, and it is read in two minutes."""
    faults = []
    first = page.first_paragraph()
    if len(first.split()) < LEAST_WORDS or "breath" not in first:
        faults.append((1, "the first paragraph does not say what the job is"))
    if not any(target.endswith(".png") for _, target in page.links()):
        faults.append((1, "there is no picture of the window"))
    if len(page.text.splitlines()) > MOST_README_LINES:
        faults.append((MOST_README_LINES, f"longer than {MOST_README_LINES} lines"))
    faults += [(number, f"says {NEVER.search(line).group(0)}")
               for number, line in enumerate(page.text.splitlines(), 1) if NEVER.search(line)]
    return faults


def developers_faults(page, root):
    """Short enough to be read, and every folder with code or suites has its word."""
    faults = []
    if len(page.text.splitlines()) > MOST_LINES:
        faults.append((MOST_LINES, f"longer than {MOST_LINES} lines"))
    for pattern in ("core/*/", "app/*/", "app/patient/*/", "tests/*/"):
        for folder in sorted(glob.glob(os.path.join(root, pattern))):
            name = os.path.relpath(folder, root)
            if name.endswith("__pycache__") or not os.listdir(folder):
                continue
            if f"`{name}`" not in page.text and f"`{name}/" not in page.text:
                faults.append((1, f"the folder {name} is not told of"))
    return faults + cost_faults(page, root)


def cost_faults(page, root):
    """The table of costs has every suite of `tests/run --list` once, and no other."""
    lines = page.text.splitlines()
    heads = [number for number, line in enumerate(lines, 1) if line.startswith(COSTS)]
    if len(heads) != 1:
        return [(1, f"{len(heads)} tables of what each suite costs")]
    told = []
    for line in lines[heads[0] + 1:]:
        if not line.startswith("|"):
            break
        told += [one.split()[0] for one in line.strip("| ").split(" | ")[1].split(", ")]
    ran = subprocess.run([os.path.join(root, "tests/run"), "--list"], capture_output=True,
                         text=True, check=True)
    suites = [line.split()[0] for line in ran.stdout.splitlines()]
    return [(heads[0], f"the suite {name} is told {told.count(name)} times; "
             "tests/support/costs writes the table") for name in suites if told.count(name) != 1] \
        + [(heads[0], f"there is no suite {name}") for name in told if name not in suites]
