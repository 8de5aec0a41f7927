"""The real window as one who is to be called: heard, kept awake, or called by the screen alone.

In practice, under an X server of its own. The login manager is a made-up one on a bus of its own;
whether the X server blanks its screen is asked of the X server. Used by run_sound, which measures
what was heard.
"""
import contextlib
import ctypes
import glob
import json
import os
import subprocess
import sys
import time
from concurrent.futures import ThreadPoolExecutor

import dbus

from checks import Count as WindowCount
from driver import Display, Stuck
from person import Person

LOGIN = "org.freedesktop.login1"
LOCK = ("sleep:idle", "Quarterbreath", "A breath test is running", "block")


class LoginManager:
    """A made-up login manager on a system bus of its own; `env` leads a program to it."""

    def __enter__(self):
        self.daemon = subprocess.Popen(
            ["dbus-daemon", "--session", "--nofork", "--print-address=1"],
            stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
        address = self.daemon.stdout.readline().strip()
        self.env = {"DBUS_SYSTEM_BUS_ADDRESS": address}
        self.bus = dbus.bus.BusConnection(address)
        self.mock = subprocess.Popen(
            [sys.executable, "-m", "dbusmock", "--system", "--template", "logind"],
            env=dict(os.environ, **self.env), stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL)
        until = time.monotonic() + 10
        while not self.bus.name_has_owner(LOGIN):
            if time.monotonic() > until:
                raise Stuck("the made-up login manager did not start")
            time.sleep(0.05)
        return self

    def __exit__(self, *_):
        self.bus.close()
        for process in (self.mock, self.daemon):
            process.terminate()
            process.wait()

    def locks(self):
        """What the manager is asked to refrain from: (what, who, why, mode) of each lock held."""
        manager = self.bus.get_object(LOGIN, "/org/freedesktop/login1")
        held = manager.ListInhibitors(dbus_interface=LOGIN + ".Manager")
        return [tuple(str(word) for word in lock[:4]) for lock in held]


class Saver:
    """The X server's screen saver, set to begin after one idle second; asked whether it has."""

    class Info(ctypes.Structure):
        _fields_ = [("window", ctypes.c_ulong), ("state", ctypes.c_int), ("kind", ctypes.c_int),
                    ("til_or_since", ctypes.c_ulong), ("idle", ctypes.c_ulong),
                    ("event_mask", ctypes.c_ulong)]

    def __init__(self, display):
        self.x = ctypes.CDLL("libX11.so.6")
        self.saver = ctypes.CDLL("libXss.so.1")
        for function in (self.x.XOpenDisplay, self.x.XDefaultRootWindow):
            function.restype = ctypes.c_void_p
        self.to = ctypes.c_void_p(self.x.XOpenDisplay(display.env["DISPLAY"].encode()))
        self.root = ctypes.c_ulong(self.x.XDefaultRootWindow(self.to))
        self.x.XSetScreenSaver(self.to, 1, 0, 1, 1)
        self.x.XSync(self.to, 0)

    def comes(self, seconds):
        """Whether it blanks the screen within so long, in which nobody touches anything."""
        until = time.monotonic() + seconds
        info = self.Info()
        while time.monotonic() < until:
            self.saver.XScreenSaverQueryInfo(self.to, self.root, ctypes.byref(info))
            if info.state == 1:
                return True
            time.sleep(0.1)
        return False

    def close(self):
        self.x.XSetScreenSaver(self.to, 0, 0, 1, 1)
        self.x.XCloseDisplay(self.to)


def brightness(window, folder):
    """Of the window's picture, from 0 for black to 1 for white."""
    path = os.path.join(folder, "now.png")
    window.picture(path)
    told = subprocess.run(["convert", path, "-colorspace", "gray", "-format", "%[fx:mean]",
                           "info:"], capture_output=True, text=True, check=True)
    return float(told.stdout)


def stop_and_hand_over(person):
    """Stops the practice, hands its record over, and answers what it says of attention."""
    w = person.window
    person.opened("unwell", "unwell")
    person.opened("stop-test", "unwell-stop")
    w.press("stop-sure")
    shown = w.screen("afterwards", "finish")
    yield
    if shown == "afterwards":  # only where something was drunk
        w.press("next")
        w.screen("finish")
    person.opened("open-hand-over", "hand-over")
    w.press("place-1")
    w.wait("the files' names", lambda o: any(e["key"] == "file-1" for e in o["elements"]))
    (path,) = glob.glob(os.path.join(person.data, "handed-over", "*.log.json"))
    with open(path, encoding="utf-8") as file:
        events = json.load(file)["events"]
    yield [e["data"]["items"] for e in events
           if e["kind"] == "checklist" and e["data"]["name"] == "attention"]


def heard_and_awake(count, display, env):
    with LoginManager() as manager, contextlib.closing(Saver(display)) as saver:
        count.check(saver.comes(5), "the X server blanks a screen that nobody holds awake")
        p = Person(count, display, "480x800", True)
        w = p.start(env={**env, **manager.env})
        p.patient.walk("gate")
        count.check(manager.locks() == [], f"before the gate nothing is held: {manager.locks()}")
        p.patient.walk("gate-things")
        count.check(manager.locks() == [LOCK], f"at the gate's list it is held: {manager.locks()}")
        count.check("go dark" not in w.words(), "nothing is said of a screen that is held")
        w.press("try-sound")
        time.sleep(2)  # heard out
        if w.has("page-back"):  # the list's ticks stand on the leaf before
            w.press("page-back")
        p.patient.walk("label")
        count.check(manager.locks() == [LOCK], f"in the test it is held once: {manager.locks()}")
        count.check(not saver.comes(3), "in the test the X server leaves the screen on")
        ending = stop_and_hand_over(p)
        next(ending)
        count.check(manager.locks() == [], f"at the finish it is let go: {manager.locks()}")
        count.check(saver.comes(5), "and the X server may blank the screen again")
        told = next(ending)
        count.check(told == [["sound heard", "awake held"]], f"the record says {told}")
        count.check(w.close() == 0, "the window closes with status 0")


def by_the_screen_alone(count, display, env):
    nobody = {"DBUS_SYSTEM_BUS_ADDRESS": "unix:path=" + os.path.join(os.path.sep, "nowhere")}
    p = Person(count, display, "360x640", True)
    w = p.start(env={**env, **nobody})
    p.patient.walk("gate-things")
    said = w.words()
    count.check("No sound was found" in said, f"the missing card is said before: {said}")
    count.check("go dark" in said and "stay on" in said, f"so is a screen that may go dark: {said}")
    p.patient.walk("wait", "heads-up")
    calm = brightness(w, p.folder)
    while w.outline()["screen"] != "breathe":
        w.press("jump")
    time.sleep(0.3)
    calls = brightness(w, p.folder)
    w.picture(os.path.join(p.folder, "calls.png"))
    count.check(calm > 0.7 and calls < 0.4, f"a due tube turns the page dark: {calm} {calls}")
    time.sleep(2)
    still = brightness(w, p.folder)
    count.check(abs(still - calls) < 0.05, f"and it stands still: {calls} {still}")
    w.press("begin-breath")
    time.sleep(0.3)
    count.check(brightness(w, p.folder) > 0.7, "the breath, once begun, turns it back")
    p.patient.walk("label")
    ending = stop_and_hand_over(p)
    next(ending)
    told = next(ending)
    count.check(told == [["no sound card", "awake refused"]], f"the record says {told}")
    w.close()


def one_person(name, person, env):
    """That person's count, and whether they came through."""
    count = WindowCount(name)
    try:
        with Display() as display:
            person(count, display, env)
        return count, True
    except Stuck as stuck:
        count.check(False, f"stuck: {stuck}")
        return count, False


def at_the_window(count, recorded, silent):
    """Both people at the same time; `recorded` is an environment with sound, `silent` one without.
    True when the first came through, so that what they heard can be measured."""
    with ThreadPoolExecutor() as pool:
        heard = pool.submit(one_person, "heard", heard_and_awake, recorded)
        unheard = pool.submit(one_person, "unheard", by_the_screen_alone, silent)
    for own, _ in (heard.result(), unheard.result()):
        count.passed += own.passed
        count.failed += own.failed
    return heard.result()[1]
