"""One person at the window: a folder, a display, and the program as often as it is started.

A start may be on another day: the program's clocks are moved by a small library that is loaded
into it, wall and boot clock alike, so that for the program the time between has passed.
"""
import os

from checks import page_faults
from clocks import Clocks
from driver import Window, fresh
from patient import Patient, pictures_into

ROOT, BUILD, WORK = (os.environ[name] for name in ("QB_ROOT", "QB_BUILD", "QB_WORK"))
SHIPPED = os.path.join(ROOT, "assets")
ASSETS = os.path.join(WORK, "assets")  # laid out by the runner
PROGRAM, LAB = (os.path.join(BUILD, name) for name in ("quarterbreath", "quarterbreath-lab"))
SHIFTED_CLOCKS = os.path.join(BUILD, "qb_shifted_clocks")


class Person:
    """A folder, a display, and the window as often as it is started."""

    def __init__(self, count, display, size, practice):
        self.count, self.display, self.size, self.practice = count, display, size, practice
        self.folder = fresh(os.path.join(WORK, count.name))
        self.data = os.path.join(self.folder, "data")
        self.keep = pictures_into(os.path.join(self.folder, "screens"))
        self.clocks = Clocks(self.folder, SHIFTED_CLOCKS)
        # Where no suite laid any out, those that are shipped.
        self.assets = ASSETS if os.path.isdir(ASSETS) else SHIPPED

    def start(self, *more, env=None, wrap=()):
        words = ["--assets", self.assets, "--data", self.data, "--size", self.size, *more]
        if self.practice:
            words.append("--rehearsal")
        env = {**self.clocks.env, **(env or {})}
        self.window = Window(self.display, PROGRAM, words, self.folder, env, wrap,
                             self.clocks)
        self.patient = Patient(self.window, self.look)
        return self.window

    def look(self, window, screen):
        self.keep(window, screen)
        seen = window.outline()
        if seen["screen"] == screen:
            faults = page_faults(seen, self.practice)
            self.count.check(not faults, f"screen {screen}: {'; '.join(faults)}")

    def opened(self, key, screen):
        """Presses `key` and looks at the page it opens."""
        self.window.press(key)
        self.window.screen(screen)
        self.look(self.window, screen)

    def start_on(self, civil, zone, *more):
        """The program as it is opened at that civil time ("2027-04-05 12:00") in that zone."""
        self.clocks = Clocks(self.folder, SHIFTED_CLOCKS)
        self.clocks.come_to(civil, zone)
        return self.start(*more, env={"TZ": zone})
