"""Drives the real window as a person would: real key and pointer events, found through the outline.

A Display is an X server of its own; a Window is the program on it. What to press is looked up by
its stable key in the outline file the program keeps, never by a pixel position written down here.
Waits are for a state of the outline, never for a time; a time only bounds them.
"""
import json
import os
import shutil
import signal
import subprocess
import time

PATIENCE_S = 30.0
ANSWER_S = 1.0
APART_S = 0.45
SEEN_S = 2.2  # a page that came by itself is deaf for 2 s


class Stuck(Exception):
    """The window did not come to what was waited for; says what it showed instead."""


class Display:
    """An X server without a screen, gone when the block ends."""

    def __init__(self, width=1000, height=1000):
        self.size = f"{width}x{height}x24"

    def __enter__(self):
        read, write = os.pipe()
        self.server = subprocess.Popen(
            ["Xvfb", "-displayfd", str(write), "-screen", "0", self.size, "-nolisten", "tcp"],
            pass_fds=[write], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        os.close(write)
        with os.fdopen(read) as pipe:
            number = pipe.readline().strip()
        if not number:
            raise Stuck("Xvfb did not start")
        self.env = dict(os.environ, DISPLAY=":" + number, LIBGL_ALWAYS_SOFTWARE="1")
        return self

    def __exit__(self, *_):
        self.server.terminate()
        self.server.wait()


class Window:
    """One run of the program on a display; `wrap` is a command that starts it in its own place."""

    def __init__(self, display, program, arguments, folder, env=None, wrap=(), clocks=None):
        self.display, self.program, self.folder = display, program, folder
        self.clocks = clocks
        self.outline_file = os.path.join(folder, "outline.json")
        self.pictures = os.path.join(folder, "pictures")
        if os.path.exists(self.outline_file):
            os.remove(self.outline_file)
        self.env = dict(display.env, **(env or {}))
        self.last_press = 0.0
        self.written_at = None
        self.errors = open(os.path.join(folder, "errors.txt"), "ab")
        self.process = subprocess.Popen(
            [*wrap, program, "--outline", self.outline_file, "--pictures", self.pictures,
             *arguments],
            env=self.env, stdout=subprocess.DEVNULL, stderr=self.errors)

    # ---- looking ------------------------------------------------------------------------------

    def outline(self):
        try:
            with open(self.outline_file, encoding="utf-8") as file:
                return json.load(file)
        except (FileNotFoundError, json.JSONDecodeError):
            return {"screen": "", "settled": False, "elements": []}

    def wait(self, what, accept):
        """The first outline that `accept` likes."""
        until = time.monotonic() + PATIENCE_S
        while time.monotonic() < until:
            seen = self.outline()
            if accept(seen):
                return seen
            if self.process.poll() is not None:
                raise Stuck(f"the program ended (status {self.process.returncode}) before {what}")
            time.sleep(0.01)
        seen = self.outline()
        keys = [e["key"] for e in seen["elements"]]
        raise Stuck(f"waited for {what}; on screen {seen['screen']!r} with {keys}")

    def screen(self, *names):
        """Waits until one of these screens is shown and steady."""
        return self.wait(f"screen {names}",
                         lambda o: o["settled"] and (o["screen"] in names))["screen"]

    def element(self, key):
        def there(o):
            return o["settled"] and any(e["key"] == key for e in o["elements"])
        seen = self.wait(f"element {key!r}", there)
        return next(e for e in seen["elements"] if e["key"] == key)

    def has(self, key):
        return any(e["key"] == key for e in self.outline()["elements"])

    def words(self):
        """All that can be read on the screen now."""
        return " | ".join(e["name"] + " " + e["value"] for e in self.outline()["elements"])

    def picture(self, path):
        """What the display shows, as a PNG."""
        subprocess.run(["import", "-window", "root", "-crop", self._crop(), "+repage", path],
                       env=self.env, check=True)

    def _crop(self):
        width, height = (int(n) for n in self.outline()["size"])
        return f"{width}x{height}+0+0"

    # ---- doing --------------------------------------------------------------------------------

    def _xdotool(self, *words):
        subprocess.run(["xdotool", *words], env=self.env, check=True, stdout=subprocess.DEVNULL)

    def point_at(self, element):
        self._xdotool("mousemove", str(int(element["x"] + element["w"] / 2)),
                      str(int(element["y"] + element["h"] / 2)))

    def press(self, key):
        """Presses the element, turning pages to find it; waits until the screen has answered."""
        for _ in range(8):
            self.wait("a steady screen", lambda o: o["settled"])
            if self.has(key) or not self.has("page-more"):
                break
            self._click("page-more")
        self._click(key)

    def _click(self, key):
        # A person's presses lie apart; two within 400 ms of the program's time are taken for one
        # that trembled. On a busy machine the program hears a press late, so it is counted from
        # when the answer was seen.
        self._apart(self.last_press, APART_S)
        before = self.outline()
        # A page that came by itself after writing hears nothing until it could be seen.
        if before["screen"] == "hand-over-written" and self.written_at is None:
            self.written_at = time.monotonic()
        if before["screen"] == "hand-over-written":
            self._apart(self.written_at, SEEN_S)
        else:
            self.written_at = None
        self.point_at(self.element(key))
        self._xdotool("click", "1")
        # A press may leave the picture as it was; then there is nothing to wait for.
        until = time.monotonic() + ANSWER_S
        while time.monotonic() < until:
            seen = self.outline()
            if seen["settled"] and seen["elements"] != before["elements"]:
                time.sleep(0.03)  # the press and its release are two frames
                break
            time.sleep(0.01)
        self.last_press = time.monotonic()
        self.wait("a steady screen", lambda o: o["settled"])

    def _apart(self, since, seconds):
        """So much time of the program's has passed since then; where it has not, its clocks are
        moved and nobody waits. The machine's own clocks, and clocks that stand, are waited for."""
        left = since + seconds - time.monotonic()
        if left > 0 and self.clocks and self.clocks.run():
            self.clocks.let_pass(left)
        elif left > 0:
            time.sleep(left)

    def click_here(self):
        """One press where the pointer stands, apart from the one before; waits for nothing."""
        self._apart(self.last_press, APART_S)
        self._xdotool("click", "1")
        self.last_press = time.monotonic()

    def press_twice(self, key):
        """As a hand that shakes does: two clicks, 140 ms apart, on the same place."""
        self._apart(self.last_press, APART_S)
        self.point_at(self.element(key))
        self._xdotool("click", "--repeat", "2", "--delay", "140", "1")
        time.sleep(ANSWER_S)
        self.wait("a steady screen", lambda o: o["settled"])

    def type(self, key, text, meanwhile=lambda: None):
        """Types into a text field with a real keyboard's events; `meanwhile` is called while the
        keyboard on the screen is still open."""
        self.press(key)
        self._xdotool("type", "--delay", "30", text)
        self.wait(f"{text!r} in {key!r}", lambda o: value_of(o, key) == text)
        meanwhile()
        self._key_until("Return", "the keyboard closed",
                        lambda o: not any(e["role"] == "key" for e in o["elements"]))

    def erase(self, key, letters):
        """Opens a text field and takes away its last letters with a real keyboard."""
        self.press(key)
        for left in reversed(range(len(value_of(self.outline(), key)))[-letters:]):
            self._key_until("BackSpace", f"{left} letters in {key!r}",
                            lambda o, left=left: len(value_of(o, key)) <= left)

    def _key_until(self, name, what, accept):
        """Presses a key until its effect is seen: on a busy machine a press and its release may
        fall into one frame, and this version of the drawing library then hears neither."""
        for _ in range(5):
            self._xdotool("keydown", name)
            time.sleep(0.05)
            self._xdotool("keyup", name)
            until = time.monotonic() + ANSWER_S
            while time.monotonic() < until:
                if accept(self.outline()):
                    return
                time.sleep(0.01)
        self.wait(what, accept)

    def nudge(self):
        """Touches the mouse where nothing stands, so that the program looks at its clocks."""
        self.nudged = not getattr(self, "nudged", False)
        self._xdotool("mousemove", "1", "1" if self.nudged else "2")

    def kill(self):
        """A power cut, as far as the program can tell."""
        self.process.send_signal(signal.SIGKILL)
        self.process.wait()
        self.errors.close()

    def close(self):
        """Closed as a session is ended; answers the exit status."""
        self.process.send_signal(signal.SIGTERM)
        status = self.process.wait(timeout=PATIENCE_S)
        self.errors.close()
        return status


def value_of(outline, key):
    """What stands in that field, without the caret's place."""
    return next((e["value"].rstrip() for e in outline["elements"] if e["key"] == key), "")


def fresh(folder):
    """An empty folder of that name."""
    shutil.rmtree(folder, ignore_errors=True)
    os.makedirs(folder)
    return folder
