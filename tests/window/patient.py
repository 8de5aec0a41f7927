"""A person at the window: what they press on each screen, when nothing else was asked of them.

The walk looks at the screen's name and the elements it shows, as a person looks at the page.
"""
import os

from driver import Stuck

PERSON = {"name": "Maren Oakhollow", "birth": "11 02 1957", "doctor": "Dr Ivo Brandreth",
          "kit": "FV-2071"}
GUIDE_MOST_S = 40
GUIDED = ("lead-in", "hold-breath", "blowing")  # pages that pass by themselves
SCORES = {"bloating": 2, "pain": 0, "nausea": 1}


class Patient:
    """Walks a window forward; `look` is called once on each screen before it is answered."""

    def __init__(self, window, look=lambda window, screen: None):
        self.window, self.look = window, look
        self.seen = []

    def walk(self, *goals, turns=400):
        """Answers screens until one of `goals` is shown; answers its name."""
        for _ in range(turns):
            seen = self.window.wait("a steady screen", lambda o: o["settled"] and o["screen"])
            screen = seen["screen"]
            if screen not in self.seen:
                self.seen.append(screen)
                self.look(self.window, screen)
            if screen in goals:
                return screen
            self.answer(screen, {e["key"]: e for e in seen["elements"]})
        raise Stuck(f"{turns} turns without coming to {goals}; last screen {screen!r}")

    def answer(self, screen, shown):
        w = self.window
        if screen.startswith("who-") and "who." + screen[4:] in shown:
            field = screen[4:]
            wanted = PERSON.get(field)
            if wanted and not shown["who." + field]["value"].strip():
                return w.type("who." + field, wanted)
            return w.press("next")
        if screen.startswith("symptoms-") and "score-0" in shown:
            return w.press(f"score-{SCORES[screen[len('symptoms-'):]]}")
        if screen in GUIDED:
            return self.guide_goes_on()
        # Answers that a person gives before going on, then the ways on, most wanted first.
        for key in ("dose-none", "test-lactulose-10g", "form-syrup"):
            if key in shown and shown[key]["state"] != "on":
                return w.press(key)
        return self.go_on(screen, shown)

    def guide_goes_on(self):
        """The guided breath at its own pace, on clocks that are moved a second at a time."""
        for _ in range(GUIDE_MOST_S):
            if self.window.outline()["screen"] not in GUIDED:
                return None
            self.window.clocks.let_pass(1)
            self.window.nudge()
            self.window.wait("a steady screen", lambda o: o["settled"])
        return self.window.wait("the guide to go on", lambda o: o["screen"] not in GUIDED)

    def go_on(self, screen, shown):
        # Ticks on these pages say that something is wrong; the person is well.
        if screen == "red-flags":
            return self.window.press("red-flags-none")
        if screen == "gate-morning":
            return self.window.press("none-true")
        unticked = [k for k, e in shown.items() if e["role"] == "check" and e["state"] != "on"]
        if unticked:
            return self.window.press(unticked[0])
        ways = ("agree", "right", "no-code", "answers-person", "none-true", "any-day", "use-plan",
                "only-trying", "go-on",
                "begin-checks", "sugar-matches", "ready", "sugar-ready", "symptoms-done",
                "scored-self",
                "begin-breath", "tube-closed", "unsure-no", "label-done", "drink-start",
                "drink-end", "nothing-more", "confirm-fast", "confirm-awake", "jump", "next",
                "other-things",
                "page-more", "open-gate", "copy-next", "copy-done", "done")
        for key in ways:
            if key in shown and shown[key]["role"] in ("button", "link") \
                    and shown[key]["state"] != "waiting":
                return self.window.press(key)
        raise Stuck(f"no way on from {screen!r}; it shows {sorted(shown)}")


def pictures_into(folder):
    """A `look` that keeps a picture of each screen as it first appears."""
    os.makedirs(folder, exist_ok=True)
    number = [0]

    def look(window, screen):
        number[0] += 1
        window.picture(os.path.join(folder, f"{number[0]:02d}-{screen}.png"))
    return look
