"""What must hold on every screen, and how a check is counted.

Read from the outline alone, so that it holds for a voice as well as for an eye.
"""
LEAST_TARGET = 44  # pixels: WCAG 2.2, success criterion 2.5.5
PRACTICE_WORDS = "This is practice: leave tubes and sugar closed"


class Count:
    """Checks passed and failed, each failure said at once."""

    def __init__(self, name):
        self.name, self.passed, self.failed = name, 0, 0

    def check(self, holds, what):
        if holds:
            self.passed += 1
        else:
            self.failed += 1
            print(f"FAIL {self.name}: {what}", flush=True)
        return holds


def overlap(a, b):
    return (a["x"] < b["x"] + b["w"] - 1 and b["x"] < a["x"] + a["w"] - 1
            and a["y"] < b["y"] + b["h"] - 1 and b["y"] < a["y"] + a["h"] - 1)


def page_faults(outline, practice):
    """What is wrong with a page as it is drawn; empty for nothing."""
    width, height = outline["size"]
    elements = outline["elements"]
    faults = []
    for e in elements:
        if any(mark in e["name"] + e["value"] for mark in "{}[]"):
            faults.append(f"{e['key']} shows a raw text: {e['name']} {e['value']}")
        right, bottom = e["x"] + e["w"], e["y"] + e["h"]
        if e["x"] < -1 or e["y"] < -1 or right > width + 1 or bottom > height + 1:
            faults.append(f"{e['key']} lies outside the window")
    targets = [e for e in elements
               if e["role"] in ("button", "link", "choice", "check", "textbox", "key")]
    for i, e in enumerate(targets):
        if min(e["w"], e["h"]) < LEAST_TARGET - 1:
            faults.append(f"{e['key']} is only {e['w']}x{e['h']}")
        for other in targets[i + 1:]:
            if overlap(e, other):
                faults.append(f"{e['key']} overlaps {other['key']}")
    banner = [e for e in elements if e["key"] == "practice"]
    if practice != bool(banner) or (banner and banner[0]["name"] != PRACTICE_WORDS):
        faults.append("the practice banner does not say what it should")
    unwell = [e for e in elements if e["key"] == "unwell"]
    typing = any(e["role"] == "key" for e in elements)
    if not unwell and not typing and not outline["screen"].startswith("unwell"):
        faults.append("there is no way to say 'I feel unwell'")
    return faults
