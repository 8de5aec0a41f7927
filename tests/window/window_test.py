"""The real window, from the first screen to the laboratory, with real key and pointer events.

Three people use it at the same time, each on a display of their own: one practises at 360x640 and
the power is cut in the middle; one practises at 480x800 and things go wrong; one plans a real test.
Pictures of every screen are kept in the work folder, to be looked at.
"""
import glob
import json
import os
import subprocess
import sys
import time

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from driver import Stuck  # noqa: E402
from person import ASSETS, LAB, PROGRAM, Person  # noqa: E402
from runner import run_suite  # noqa: E402


def jump_to(person, *screens):
    """Jumps through practice time until one of these screens stands."""
    for _ in range(20):
        now = person.window.wait("steady", lambda o: o["settled"])["screen"]
        if now in screens:
            person.look(person.window, now)
            return now
        person.window.press("jump")
    raise Stuck(f"jumped without coming to {screens}")


def tube(window):
    """The number of the tube the screen is about, from the words of where it is."""
    where = [e for e in window.outline()["elements"] if e["key"] == "where"]
    return int(where[0]["name"].split()[1]) if where else 0


def lab(*words):
    return subprocess.run([LAB, "--assets", ASSETS, *words],
                          capture_output=True, text=True, check=False)


def practise_through_a_kill(count, display):
    p = Person(count, display, "360x640", True)
    w = p.start()
    p.patient.walk("heads-up")
    count.check(tube(w) == 2, "after the drink the window waits for tube 2")
    jump_to(p, "breathe")
    p.patient.walk("blowing", "close-tube")
    w.kill()  # in the middle of a breath

    w = p.start()
    seen = w.screen("blowing", "close-tube", "unsure", "return", "lead-in")
    count.check(tube(w) == 2, f"after the kill the window is at tube 2 again, on {seen}")
    p.patient.walk("heads-up")
    count.check(tube(w) == 3, "tube 2 was kept, and tube 3 is next")
    before = w.element("quarter")["value"]
    w.kill()  # while a time runs; it runs on
    w = p.start()
    w.screen("return", "heads-up", "breathe")
    shown = w.words()
    count.check("FV-2071" in shown or "tube 3" in shown.lower(), "it says whose test goes on")
    count.check(before != "", "a countdown was shown before the kill")
    p.patient.walk("finish")
    p.opened("open-copy", "copy")
    p.patient.walk("finish")
    p.opened("open-hand-over", "hand-over")
    w.press("place-1")
    w.wait("the files' names", lambda o: any(e["key"] == "file-1" for e in o["elements"]))
    count.check(w.close() == 0, "the window closes with status 0 when it is asked to")
    check_record(count, p)


def check_record(count, p):
    logs = glob.glob(os.path.join(p.data, "handed-over", "*.log.json"))
    if not count.check(len(logs) == 1, f"one log was handed over, found {len(logs)}"):
        return
    checked = subprocess.run([PROGRAM, "log", "check", logs[0]], check=False)
    count.check(checked.returncode == 0, "the log matches its own record")
    store = os.path.join(p.folder, "store.db")
    count.check(lab("--store", store, "import", logs[0]).returncode == 2,
                "the laboratory refuses a rehearsal")
    taken = lab("--store", store, "import", "--rehearsals", logs[0])
    count.check(taken.returncode == 0, f"and takes it when told to: {taken.stderr}")
    shown = lab("--store", store, "--format", "json", "show", "FV-2071")
    with open(logs[0], encoding="utf-8") as file:
        log = json.load(file)
    samples = log["summary"]["samples"]
    count.check(shown.returncode == 0 and "rehearsal" in shown.stdout, "it is marked when shown")
    count.check([s["number"] for s in samples if s["closed"]] == list(range(1, 11)),
                "ten tubes were closed, each under its own number")
    scored = [s for s in samples if [x["score"] for x in s["scores"]] == [2, 0, 1]]
    count.check(len(scored) == 10, f"ten times the scores that were pressed, found {len(scored)}")


def practise_with_mishaps(count, display):
    p = Person(count, display, "480x800", True)
    w = p.start()
    p.patient.walk("heads-up")
    jump_to(p, "breathe")
    p.patient.walk("close-tube")
    w.press_twice("tube-closed")
    count.check(w.outline()["screen"] == "label", "a trembling double press skips no step")
    p.look(w, "label")
    p.opened("mishap", "mishap")
    w.press("mishap-lid")
    w.screen("breathe")
    count.check("again" in w.words(), "a tube can be blown again after a mishap")
    p.patient.walk("wait")
    p.opened("mishap", "mishap")
    w.press("mishap-label")
    w.screen("label")
    count.check("07:4" in w.words(), "a label can be shown again")
    w.press("label-done")
    p.opened("mishap", "mishap")
    w.press("mishap-score")
    w.screen("right-tube")
    w.press("right-on")
    w.screen("right-symptom")
    w.press("right-bloating")
    w.press("score-1")
    w.screen("right-why")
    w.press("right-why-pressed")
    p.patient.walk("wait")
    jump_to(p, "breathe-late")
    count.check("was due" in w.words(), "a late tube says when it was due")
    jump_to(p, "wait")
    count.check("empty" in w.words(), "a missed tube is stated, and is to be left empty")
    p.opened("tell-missed", "tell")
    w.press("tell-minutes-less")
    w.press("tell-guess")
    p.patient.walk("wait")
    count.check("Leave tube 3 empty" not in w.words(), "a told breath undoes the missed tube")
    p.opened("unwell", "unwell")
    count.check("eat at any time" in w.words(), "feeling unwell, the person may stop and eat")
    w.press("unwell-over")
    w.press("red-flags-none")
    p.patient.walk("wait")
    p.opened("unwell", "unwell")
    p.opened("stop-test", "unwell-stop")
    w.press("stop-sure")
    w.screen("afterwards")
    p.look(w, "afterwards")
    w.press("next")
    w.screen("finish")
    for key, screen in (("open-pack", "pack"), ("open-comment", "comment")):
        p.opened(key, screen)
        w.press("back")
        w.screen("finish")
    p.opened("open-comment", "comment")
    w.press("comment")  # the keyboard on the screen
    for letter in "oak":
        w.press("key-" + letter)
    w.press("key-done")
    count.check(w.element("comment")["value"].strip().lower() == "oak",
                "the keyboard on the screen writes what was pressed")
    w.close()


def plan_a_real_test(count, display):
    p = Person(count, display, "360x640", False)
    w = p.start()
    w.screen("agree")
    time.sleep(3)
    idle = frames_of(p, w)
    count.check(idle < 15, f"where nothing counts nothing is drawn: {idle} frames in 3 s")
    w = p.start()
    p.patient.walk("choose-trying")
    count.check("Do not drink any real sugar" in w.words(), "an invented laboratory is told as one")
    p.patient.walk("prepare")
    count.check("For trying only" in w.words(), "and so says every page")
    p.opened("other-things", "prepare-more")
    p.opened("other-plan", "timeline")
    w.press("close")
    p.patient.walk("prepare")
    second = subprocess.run([PROGRAM, "--assets", ASSETS, "--data", p.data], env=display.env,
                            capture_output=True, text=True, check=False)
    count.check(second.returncode != 0 and "one copy" in second.stderr,
                f"a second copy is refused: {second.returncode} {second.stderr.strip()}")
    w.kill()
    w = p.start()
    w.screen("return")
    count.check("Maren Oakhollow" in w.words(), "after a kill it asks if it is the same person")
    p.patient.walk("prepare")
    w.close()
    w = p.start()
    w.screen("return")
    time.sleep(5)
    counting = frames_of(p, w)
    count.check(counting < 25, f"while it counts, about a frame a second: {counting} in 5 s")
    fast = dict(display.env, FAKETIME_DONT_FAKE_MONOTONIC="1")
    later = subprocess.run(["faketime", "-f", "+40h", PROGRAM, "--assets", ASSETS, "--data", p.data,
                            "--rehearsal"],
                           env=fast, capture_output=True, text=True, check=False, timeout=30)
    count.check(later.returncode == 2 and "fast" in later.stderr,
                f"practice is refused from the fast on: {later.returncode} {later.stderr.strip()}")


def frames_of(person, window):
    """Frames the program says it drew, when it is closed now."""
    window.close()
    with open(os.path.join(person.folder, "errors.txt"), encoding="utf-8") as file:
        last = file.read().strip().splitlines()[-1]
    print(f"idle: {last}")
    return int(last.split(" frames drawn")[0].split()[-1])


WALKS = [practise_through_a_kill, practise_with_mishaps, plan_a_real_test]


if __name__ == "__main__":
    sys.exit(run_suite("window", "walks", [], WALKS, trying=True))
