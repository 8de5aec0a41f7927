"""Records for the outside readers: every rehearsal of demo-data, played by the real program, and
some played with awkward words. And the score these suites print.

The scripts are not trusted to show awkward words, so those are put into a copy of one of them.
"""
import copy
import json
import os
import subprocess

ROOT = os.environ["QB_ROOT"]
BUILD = os.environ["QB_BUILD"]
WORK = os.environ["QB_WORK"]
SCRIPTS = os.path.join(ROOT, "demo-data", "rehearsals")

# Words a spreadsheet would run, words that break rows, letters beyond ASCII.
FORMULAS = ["=1+2", "+1+2", "-1+2", "@SUM(A1)", '=HYPERLINK("x";"y")', "=cmd|' /c calc'!A1"]
AWKWARD = FORMULAS + ['She said "no", twice', "one, two, three", "' quoted already",
                      "Świętosława, ελληνικά, Черноброва", "a;b\\c"]
# Words a spreadsheet would take for a figure, a date or a truth, and show otherwise.
FIGURES = ["007", "1E5", "1/2", "TRUE", "4-7", "12345678901234567890", "50%", "12:30"]


class Score:
    """Counts named checks; tells each failure in one line."""

    def __init__(self, name):
        self.name, self.passed, self.failed = name, 0, 0

    def check(self, good, what):
        self.passed += bool(good)
        self.failed += not good
        if not good:
            print("FAIL " + " ".join(what.split())[:280])
        return bool(good)

    def end(self):
        print(f"{self.name}: {self.passed} passed, {self.failed} failed")
        return 1 if self.failed else 0


def play(script, name):
    """Plays a script (a path); answers the folder with its files. Ends the suite if it cannot."""
    folder = os.path.join(WORK, "records", name)
    ran = subprocess.run(
        [os.path.join(BUILD, "quarterbreath"), "--assets", os.path.join(ROOT, "assets"),
         "rehearse", script, "--out", folder], capture_output=True, text=True, check=False)
    if ran.returncode != 0:
        last = ran.stderr.strip().splitlines()[-1:] or ["nothing said"]
        raise SystemExit(f"FAIL rehearse {name}: status {ran.returncode}: {last[0]}")
    return folder


def demo_script(name="clean"):
    with open(os.path.join(SCRIPTS, name + ".json"), encoding="utf-8") as file:
        return json.load(file)


def play_changed(script, name):
    """The same for a script that is held in memory."""
    os.makedirs(os.path.join(WORK, "scripts"), exist_ok=True)
    path = os.path.join(WORK, "scripts", name + ".json")
    with open(path, "w", encoding="utf-8") as file:
        json.dump(script, file, ensure_ascii=False)
    return play(path, name)


def awkward_script(words=tuple(AWKWARD), kit="=FV-1"):
    """The clean test with a comment at every tube, and awkward words about the person."""
    script = copy.deepcopy(demo_script())
    script["person"]["name"] = "Żaneta =Quill-Łukasz"
    script["person"]["kit_number"] = kit
    script["person"]["doctor"] = '@Dr "Comma", Ivo'
    for number in range(1, 11):
        script["does"].append({"do": "comment", "sample": number,
                               "words": words[(number - 1) % len(words)]})
    return script


def all_records():
    """{name: folder} of every demo rehearsal and of the awkward one."""
    names = sorted(name[:-5] for name in os.listdir(SCRIPTS) if name.endswith(".json"))
    if len(names) < 4:
        raise SystemExit(f"FAIL records: {len(names)} scripts in demo-data/rehearsals, not 4")
    records = {name: play(os.path.join(SCRIPTS, name + ".json"), name) for name in names}
    records["awkward"] = play_changed(awkward_script(), "awkward")
    records["figures"] = play_changed(awkward_script(FIGURES + AWKWARD[10:], "007"), "figures")
    return records


def only(folder, ending):
    """The one file of that ending in the folder."""
    found = [name for name in os.listdir(folder) if name.endswith(ending)]
    if len(found) != 1:
        raise SystemExit(f"FAIL {folder}: {len(found)} files ending in {ending}, not one")
    return os.path.join(folder, found[0])


def read_log(folder):
    with open(only(folder, ".log.json"), encoding="utf-8") as file:
        return json.load(file)
