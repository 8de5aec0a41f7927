"""A person in the middle of a real test: a plan that stands, clocks that move, tubes to be blown.

The two hours and a quarter are lived through in minutes, since time passes when it is told to
(clocks.py). At the end the record is handed over in the window and taken in by the laboratory's
program, so that what the pages said can be held against what was written down.
"""
import csv
import glob
import json
import os
import re
import shutil
import subprocess

from clocks import Clocks
from driver import Stuck
from patient import GUIDED
from person import ASSETS, LAB, PROGRAM, SHIFTED_CLOCKS, WORK, Person

LONDON = "Europe/London"
PLANNED = os.path.join(WORK, "at-tube-1")
GUIDE_S = 10.2  # lead-in and breath of the shipped laboratory and test, and a little
DAY_OF_TEST = "2027-04-06 07:40"
AT_REST = ("wait", "heads-up")
READ_ONCE = ("breathe-how", "afterwards")  # before tube 1, and after the last


class Tester(Person):
    """A person whose glass stands ready and who is to blow tube 1."""

    def __init__(self, count, display, size="360x640", at=DAY_OF_TEST, base=PLANNED):
        super().__init__(count, display, size, False)
        self.clocks = Clocks(self.folder, SHIFTED_CLOCKS)
        self.clocks.come_to(at, LONDON)
        self.zone, self.wrap = LONDON, ()
        if base:
            shutil.copytree(base, self.data)

    def open(self, *more):
        # No sound card, on whichever machine this runs: that it is heard is another suite's.
        env = {"TZ": self.zone, "ALSA_CONFIG_PATH": os.devnull, **self.clocks.env}
        return self.start(*more, env=env, wrap=self.wrap)

    def open_and_go_on(self):
        """Opened again: it says whose test it is, and the person says that it is theirs."""
        self.open()
        self.window.screen("return")
        self.look(self.window, "return")
        self.window.press("go-on")
        seen = self.window.wait("the test", lambda o: o["settled"] and o["screen"] != "return")
        if seen["screen"] in READ_ONCE:
            self.read_on(seen["screen"])
        return self.window.wait("the test", lambda o: o["settled"])

    def read_on(self, screen):
        """A page that is only read, and the press that goes on from it."""
        self.on(screen)
        self.window.press("next")
        self.window.wait("the page after it", lambda o: o["settled"] and o["screen"] != screen)

    def says(self, words, why):
        shown = self.window.words().replace("\u00a0", " ")
        return self.count.check(words in shown, f"{why}: looked for {words!r} in {shown!r}")

    def says_not(self, words, why):
        shown = self.window.words().replace("\u00a0", " ")
        return self.count.check(words not in shown, f"{why}: found {words!r} in {shown!r}")

    def words_on_leaves(self):
        """All that the page says, its leaves turned to the last."""
        said = self.window.words()
        while self.window.has("page-more"):
            self.window.press("page-more")
            said += " | " + self.window.words()
        return said.replace("\u00a0", " ")

    def on(self, *screens):
        """Waits for one of these screens and looks at it."""
        shown = self.window.screen(*screens)
        self.look(self.window, shown)
        return shown

    # ---- time -----------------------------------------------------------------------------------

    def pass_(self, seconds):
        self.clocks.let_pass(seconds)
        self.window.nudge()

    def left_s(self):
        """What the countdown shows, in seconds."""
        shown = self.window.element("quarter")
        found = re.search(r"(?:(\d+) h )?(\d+)(?::(\d+))?", shown["value"])
        if not found:
            raise Stuck(f"no countdown in {shown}")
        hours, first, second = found.groups()
        if hours:
            return int(hours) * 3600 + int(first) * 60
        return int(first) * 60 + int(second or 0)

    def to_due(self, late_s=0):
        """Time passes until the tube that is counted down to is due."""
        self.window.screen(*AT_REST)
        self.pass_(self.left_s() + 1 + late_s)
        return self.on("breathe", "breathe-late")

    # ---- tubes ----------------------------------------------------------------------------------

    def guided(self):
        """From the press that begins a breath to the end of its guide."""
        self.window.press("begin-breath")
        self.guide_ends()

    def guide_ends(self):
        self.window.wait("the guide", lambda o: o["screen"] in GUIDED)
        self.pass_(GUIDE_S)
        self.window.screen("close-tube")

    def blow(self):
        """The tube that is due now; ends on its label."""
        self.guided()
        self.window.press("tube-closed")
        self.window.screen("label")

    def settle(self, *goals):
        """Label, scores and drink as the program asks, until it counts down again."""
        return self.patient.walk(*(goals or AT_REST))

    def begin(self):
        """Tube 1, its label, the drink: ends where tube 2 is waited for."""
        self.window.screen("breathe")
        self.blow()
        return self.settle()

    def tubes(self, *numbers):
        """These tubes one after the other, each on time."""
        for _ in numbers:
            self.to_due()
            self.blow()
            self.settle("finish", *AT_REST)

    def telling(self, *keys):
        """Presses one after the other, looking at each page; the last press ends where it ends."""
        for key in keys:
            self.window.press(key)
            shown = self.window.outline()["screen"]
            self.look(self.window, shown)

    def stops(self):
        """From the page of help: the test is stopped, and what comes afterwards is read."""
        self.opened("stop-test", "unwell-stop")
        self.window.press("stop-sure")
        self.on("afterwards")
        self.read_on("afterwards")

    # ---- the record -----------------------------------------------------------------------------

    def let_it_end(self):
        """The remaining tubes are left empty; ends on the last page."""
        self.pass_(3 * 3600)
        self.window.wait("the end of the tubes", lambda o: o["settled"] and o["screen"] not in (
            *AT_REST, "breathe", "breathe-late"))
        return self.patient.walk("finish")

    def hand_over(self):
        """Hands over in the window, has the laboratory take it in; answers a Record."""
        w = self.window
        self.opened("open-hand-over", "hand-over")
        place = max(e["key"] for e in w.outline()["elements"] if e["key"].startswith("place-"))
        w.press(place)
        w.wait("the files", lambda o: any(e["key"].startswith("file-") for e in o["elements"]))
        w.close()
        return Record(self)

    def end(self):
        self.let_it_end()
        return self.hand_over()


class Record:
    """What was handed over, as it stands in the files and as the laboratory shows it."""

    def __init__(self, tester):
        count = tester.count
        folder = os.path.join(tester.data, "handed-over")
        log_file, = glob.glob(os.path.join(folder, "*.log.json"))
        sheet, = glob.glob(os.path.join(folder, "*.csv"))
        with open(log_file, encoding="utf-8") as file:
            self.log = json.load(file)
        with open(sheet, encoding="utf-8", newline="") as file:
            self.rows = list(csv.DictReader(file))
        checked = subprocess.run([PROGRAM, "log", "check", log_file], check=False,
                                 stdout=subprocess.DEVNULL)
        count.check(checked.returncode == 0, "the log matches its own record")
        store = os.path.join(tester.folder, "store.db")
        taken = self.lab(store, "import", log_file)
        count.check(taken.returncode == 0, f"the laboratory takes it in: {taken.stderr}")
        shown = self.lab(store, "--format", "json", "show", "FV-2071")
        count.check(shown.returncode == 0, f"and shows it: {shown.stderr}")
        self.test, = json.loads(shown.stdout)["tests"]
        self.findings = {f["rule"]: f for f in self.test["findings"]}

    @staticmethod
    def lab(store, *words):
        return subprocess.run([LAB, "--assets", ASSETS, "--store", store, *words],
                              capture_output=True, text=True, check=False)

    def events(self, kind):
        return [e for e in self.log["events"] if e["kind"] == kind]

    def tube(self, number):
        return self.test["tubes"][number - 1]

    def words(self):
        """What the laboratory is told, in one text."""
        return " | ".join(f["words"] for f in self.test["findings"])


def to_tube_1(count, display):
    """The plan, the gate, the sugar and the first scores, made once in the window."""
    p = Tester(count, display, at="2027-04-04 09:00", base=None)
    p.open()
    p.patient.walk("prepare")
    p.says("Tuesday 07:30", "the start that was offered")
    p.clocks.come_to("2027-04-06 07:31", LONDON)
    p.window.nudge()
    p.window.close()
    p.open_and_go_on()
    p.patient.walk("gate-things")
    p.says("No sound was found: I will watch the screen", "no sound is said beforehand")
    p.patient.walk("breathe")
    p.says("Blow into tube 1 now", "through the gate to tube 1")
    p.window.close()
    shutil.copytree(p.data, PLANNED)
