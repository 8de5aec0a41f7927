"""Who may include whom: the arrows of the design, and the one folder of each library.

The design holds only while these arrows point one way; a library behind one folder can be changed.
"""
import re

from source import Finding

# Folder of core -> the folders it may use directly; base is free to all, itself a leaf.
CORE = {
    "base": [],
    "time": [],
    "words": [],
    "seal": [],
    "clock": ["time"],
    "protocol": ["time", "seal"],
    "plan": ["protocol"],
    "session": ["plan", "clock"],
    "findings": ["session"],
    "record": ["findings", "session"],
    "sheet": ["findings", "session"],
    "code": ["record", "findings"],
    "curve": ["protocol"],
    "report": ["record", "findings"],
    "receiving": ["curve", "report"],
    "laboratory": ["protocol"],
    "case": ["receiving", "curve", "report", "code", "findings"],
    "fhir": ["curve", "report", "record", "findings"],
}
# Part of app -> the other parts of app it may include: nothing else of app. The longest name that
# fits a file is its part. core is open to all of them.
APP = {
    "app/machine": [],
    "app/glass": ["app/machine"],
    "app/store": ["app/machine"],
    "app/assets": ["app/machine"],
    "app/letters": [],
    "app/page": ["app/letters"],
    "app/opened": ["app/machine", "app/page"],
    "app/help": [],
    "app/lab/manual": ["app/help"],
    "app/patient/manual": ["app/help"],
    "app/handover": ["app/machine", "app/store", "app/assets", "app/page", "app/opened"],
    "app/rehearsal": ["app/machine", "app/store", "app/assets", "app/handover"],
    "app/lab/context": ["app/machine", "app/store", "app/assets", "app/lab/intake"],
    "app/lab/intake": ["app/machine", "app/store", "app/assets", "app/page", "app/opened"],
    "app/lab/render": ["app/page", "app/store", "app/lab/context", "app/lab/intake"],
    "app/lab/commands": ["app/machine", "app/store", "app/assets", "app/page", "app/lab/context",
                         "app/lab/intake", "app/lab/render"],
    "app/lab/care": ["app/machine", "app/store", "app/lab/context", "app/lab/intake"],
    "app/lab/own": ["app/machine", "app/store", "app/assets", "app/lab/context", "app/lab/intake"],
    "app/lab": ["app/lab/commands", "app/lab/care", "app/lab/own", "app/lab/context",
                "app/lab/manual", "app/help", "app/assets", "app/machine"],
    "app/patient/theme": ["app/letters"],
    "app/patient/ui": ["app/patient/theme"],
    "app/patient/screens": ["app/patient/ui", "app/patient/theme"],
    "app/patient/shell": ["app/machine", "app/glass", "app/store", "app/assets", "app/page",
                          "app/handover", "app/patient/screens", "app/patient/ui",
                          "app/patient/theme"],
    "app/patient/command": ["app/machine", "app/glass", "app/store", "app/assets", "app/page",
                            "app/handover", "app/rehearsal", "app/patient/shell",
                            "app/patient/screens", "app/patient/ui", "app/patient/theme"],
    "app/patient": ["app/patient/command", "app/patient/manual", "app/help", "app/assets",
                    "app/machine"],
}
# Header pattern -> the only folders (or files) that include it.
LIBRARIES = [
    (r"sqlite3\.h$", ["app/store/", "tests/"]),
    (r"zstd\.h$", ["app/store/"]),
    (r"openssl/", ["app/lab/intake/"]),
    (r"sodium", ["core/base/", "core/record/", "core/seal/", "tests/unit/seal/"]),
    (r"uuid/", ["core/fhir/"]),
    (r"utf8proc\.h$", ["core/base/"]),
    (r"imgui|imstb", ["app/patient/", "app/glass/", "tests/"]),
    # The empty window is what ours is measured against: nothing of ours may be in it.
    (r"GLFW/|GL/|EGL/|alsa/", ["app/glass/", "tests/support/empty_window.cpp"]),
    (r"X11/|systemd/", ["app/machine/"]),
    (r"cairo|pango|ft2build\.h$|freetype/", ["app/page/", "app/letters/", "app/patient/"]),
    (r"qpdf/", ["app/page/", "app/opened/", "tests/unit/opened/"]),
    (r"qrencode|zint", ["app/page/"]),
    (r"CLI/", ["app/patient/main.cpp", "app/patient/command/", "app/lab/main.cpp",
                "app/lab/commands/", "app/lab/care/", "app/lab/own/", "app/help/",
                "tests/unit/help/"]),
    (r"catch2/|rapidcheck|benchmark/", ["tests/"]),
]
JSON_FILES = 4
# A key of JSON within a text, as it is written by hand. Help may show what is typed.
HAND_MADE_JSON = re.compile(r'(?:[{,]"|\\")\w+(?:"|\\"):')
# What only looks for such words in a text makes none.
HAND_MADE_FINE = ("core/base/json_writer.cpp", "app/lab/manual/", "app/patient/manual/",
                  "app/lab/intake/take_in.cpp", "app/store/found_rows.cpp",
                  "core/record/sound_log.cpp")
# How much a line on a screen takes, as a number.
TYPED_LIMIT = re.compile(r"\btext_kind::\w+,\s*\d|\blongest\s*=\s*\d")
# What prints, and the only files that do: words of others pass them as a terminal may have them.
PRINTS = re.compile(r"\bfmt::print\(|\bf(write|puts)\(|\bstd::(puts|cout|cerr)\b|\bf?printf\(")
DOORS = {"app/lab/context/console.cpp", "app/patient/command/say.hpp", "app/help/parse_end.cpp",
         "app/help/man_page.cpp",  # our own words alone
         "app/machine/passphrase.cpp"}  # one question of ours, to the terminal itself
DRAW_NEVER = re.compile(r"journal|/apply|/decide|core/clock/|app/store/|app/machine/|app/glass/")


def reachable(folder):
    """All folders of core that `folder` may include, through any number of arrows."""
    seen, waiting = {"base", folder}, list(CORE[folder])
    while waiting:
        one = waiting.pop()
        if one not in seen:
            seen.add(one)
            waiting += CORE[one]
    return seen


def arrows(tree):
    for file in tree.cpp("core", "app"):
        parts = file.path.split("/")
        if parts[0] == "core" and parts[1] not in CORE:
            yield Finding("arrows", file.path, 1, f"core has no folder {parts[1]} in the design",
                          "put it in a folder of the design, or add the folder to arrows.py")
            continue
        for line, name in file.includes():
            wrong = core_arrow(parts, name) if parts[0] == "core" else app_arrow(file, name)
            if wrong:
                yield Finding("arrows", file.path, line, f"includes {name}, {wrong}",
                              "pass what is needed in, or move it to where the arrow points")


def core_arrow(parts, name):
    target = name.split("/")
    if target[0] in ("app", "tests"):
        return "but core never looks at " + target[0]
    if target[0] == "core" and len(target) > 2 and target[1] not in reachable(parts[1]):
        return f"but core/{parts[1]} may use only: {', '.join(sorted(reachable(parts[1])))}"
    return None


def part_of(path):
    """The part of app a path lies in: the longest of the list that fits."""
    fitting = [part for part in APP if path.startswith(part + "/")]
    return max(fitting, key=len) if fitting else None


def app_arrow(file, name):
    if name.startswith("tests/"):
        return "but the programs never look at tests"
    if not name.startswith("app/"):
        return None
    here, there = part_of(file.path), part_of(name)
    if here is None or there is None:
        return f"but {file.path if here is None else name} is in no part of app in the design"
    if here != there and there not in APP[here]:
        return f"but {here} may use only: {', '.join(APP[here]) or 'core'}"
    return None


def libraries(tree):
    for file in tree.cpp("core", "app", "tests"):
        for line, name in file.includes():
            for pattern, places in LIBRARIES:
                if re.match(pattern, name) and not file.path.startswith(tuple(places)):
                    yield Finding("libraries", file.path, line,
                                  f"includes {name}, which belongs to {' '.join(places)}",
                                  "use what that folder offers instead")


def json(tree):
    """nlohmann-json costs seconds in every file: never in a header, and in few sources. And JSON is
    written by one writer."""
    users = []
    for file in tree.cpp("core", "app"):
        for line, name in file.includes():
            if not name.startswith("nlohmann/"):
                continue
            if file.path.endswith(".hpp"):
                yield Finding("json", file.path, line, f"a header includes {name}",
                              "declare our own types in the header, include it in one source")
            else:
                users.append((file.path, line))
    for path, line in users[JSON_FILES:]:
        yield Finding("json", path, line, f"more than {JSON_FILES} sources include nlohmann-json",
                      "use the functions of core/base instead")
    for file in tree.cpp("core", "app"):
        fine = file.path.startswith(HAND_MADE_FINE)
        for number, line in enumerate(file.lines, 1):
            if not fine and HAND_MADE_JSON.search(line.split("//")[0]):
                yield Finding("json", file.path, number, "JSON put together by hand",
                              "make a json::value, or put it through a json::writer")


def screens(tree):
    for file in tree.cpp("app/patient/screens"):
        for number, line in enumerate(file.code_lines, 1):
            if TYPED_LIMIT.search(line):
                yield Finding("screens", file.path, number, "a limit of what is typed",
                              "name it in core/session/limits.hpp, with its unit and reason")
        for line, name in file.includes():
            if DRAW_NEVER.search(name):
                yield Finding("screens", file.path, line, f"a screen includes {name}",
                              "draw from the view that is passed in, return a command")


def doors(tree):
    for file in tree.cpp("app"):
        for number, line in enumerate(file.code_lines, 1):
            if file.path not in DOORS and PRINTS.search(line):
                yield Finding("doors", file.path, number, "prints by itself",
                              "say it through the console, or `tell`, `note` and `say_no`")
