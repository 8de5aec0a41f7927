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
    "store": [],
    "seal": [],
    "clock": ["time"],
    "protocol": ["time", "seal"],
    "plan": ["protocol"],
    "session": ["plan", "clock"],
    "findings": ["session"],
    "record": ["findings", "session"],
    "sheet": ["findings", "session"],
    "code": ["record", "findings"],
    "lab": ["record", "findings", "code"],
    "fhir": ["lab", "record", "findings"],
}
# Part of app -> the parts of app it must not use. app/patient/main.cpp ties all together.
APP = {
    "app/page": ["app/patient", "app/lab", "app/platform"],
    "app/platform": ["app/patient", "app/lab", "app/page"],
    "app/headless": ["app/patient", "app/lab"],
    "app/lab": ["app/patient"],
    "app/patient/kit": ["app/platform", "app/page", "app/lab", "app/patient/screens",
                        "app/patient/window", "app/patient/command"],
    "app/patient/theme": ["app/platform", "app/page", "app/lab", "app/patient/screens",
                          "app/patient/window", "app/patient/command"],
    "app/patient/screens": ["app/platform", "app/page", "app/lab", "app/patient/window",
                            "app/patient/command"],
}
# Header pattern -> the only folders (or files) that include it.
LIBRARIES = [
    (r"sqlite3\.h$", ["core/store/", "tests/"]),
    (r"sodium", ["core/base/", "core/record/", "core/seal/", "tests/unit/seal/"]),
    (r"imgui|imstb", ["app/patient/", "app/platform/", "tests/"]),
    # The empty window is what ours is measured against: nothing of ours may be in it.
    (r"GLFW/|GL/|EGL/|alsa/|X11/|systemd/", ["app/platform/", "tests/support/empty_window.cpp"]),
    (r"cairo|pango|ft2build\.h$|freetype/", ["app/page/", "app/platform/", "app/patient/"]),
    (r"qpdf/", ["app/page/"]),
    (r"qrencode|zint", ["app/page/"]),
    (r"CLI/", ["app/patient/main.cpp", "app/patient/command/", "app/lab/", "app/help/",
              "tests/unit/help/"]),
    (r"catch2/|rapidcheck|benchmark/", ["tests/"]),
]
JSON_FILES = 4
DRAW_NEVER = re.compile(r"journal|/apply|/decide|core/clock/|core/store/|app/platform/")


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


def app_arrow(file, name):
    if name.startswith("tests/"):
        return "but the programs never look at tests"
    for part, forbidden in APP.items():
        if file.under(part) and any(name.startswith(one + "/") for one in forbidden):
            return f"but {part} must not use {', '.join(forbidden)}"
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
    """nlohmann-json costs seconds in every file: never in a header, and in few sources."""
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


def screens(tree):
    for file in tree.cpp("app/patient/screens"):
        for line, name in file.includes():
            if DRAW_NEVER.search(name):
                yield Finding("screens", file.path, line, f"a screen includes {name}",
                              "draw from the view that is passed in, return a command")


def dead(tree):
    """A header that nothing includes is dead."""
    used = {name for file in tree.cpp() for _, name in file.includes()}
    for file in tree.cpp("core", "app", "tests"):
        if file.path.endswith(".hpp") and file.path not in used:
            yield Finding("dead", file.path, 1, "nothing includes this header",
                          "use it or delete it")
