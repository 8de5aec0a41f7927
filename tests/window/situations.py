"""The days before the test in the real window: each situation a person can come into.

The clocks of the program are moved (person.start_on), so that a plan for Tuesday 6 April 2027 at
07:30 in London can be lived through in minutes. Every page is checked (checks.py) and kept as a
picture, to be looked at. The times said on the pages are worked out here by hand, from the trade's
own sentence: a start at 07:30 means plain food from 07:30 the day before and water only from 19:30.
"""
import hashlib
import json
import os
import shutil
import sqlite3
import subprocess
import sys

sys.dont_write_bytecode = True
HERE = os.path.dirname(os.path.abspath(__file__))
sys.path[:0] = [HERE, os.path.join(os.path.dirname(HERE), "faults")]
from driver import Stuck  # noqa: E402
from journal_check import rows_of  # noqa: E402
from person import ASSETS, LAB, ROOT, WORK, Person  # noqa: E402
from runner import run_suite  # noqa: E402

LONDON, BERLIN = "Europe/London", "Europe/Berlin"
BASE = os.path.join(WORK, "planned")
EARLIER = "tests/fixtures/protocols/version-1/lactulose-10g.json"


class Life(Person):
    """A person whose plan stands; opens the program on a day and is greeted."""

    def planned(self):
        shutil.copytree(BASE, self.data)
        return self

    def open_on(self, civil, zone=LONDON):
        window = self.start_on(civil, zone)
        if window.screen("return", "agree") == "return":
            window.press("go-on")
        window.wait("a steady screen", lambda o: o["settled"] and o["screen"] != "return")
        self.look(window, window.outline()["screen"])
        return window

    def shown(self):
        return self.window.words().replace("\u00a0", " ")

    def says(self, words, why):
        shown = self.shown()
        self.count.check(words in shown, f"{why}: looked for {words!r} in {shown!r}")

    def reads(self, words, why):
        """Turns the leaves of the page until these words stand there."""
        while words not in self.shown() and self.window.has("page-more"):
            self.window.press("page-more")
        self.says(words, why)

    def comes_to(self, civil, words, why, zone=LONDON):
        """The page says these words while the clocks stand at that moment."""
        self.clocks.stand_at(civil, zone)
        self.window.nudge()
        try:
            self.window.wait(words, lambda _: words in self.shown())
        except Stuck:
            pass
        self.says(words, why)

    def plan(self, civil, zone, *goals):
        """From the first screen to `goals` (the home screen where none is named)."""
        self.start_on(civil, zone)
        return self.patient.walk(*(goals or ("prepare",)))

    def to_the_check(self):
        """Through the gate to its last page, as a person to whom nothing happened."""
        if self.window.outline()["screen"] == "prepare":
            self.window.press("other-things")
            self.window.press("other-ready")
        return self.patient.walk("gate-check", "gate-check-short", "gate-early")

    def at_the_check_on(self, civil):
        self.open_on(civil)
        return self.to_the_check()

    def tell_slip(self, key, quarters_back):
        self.opened("open-slip", "slip")
        self.window.press(key)
        self.window.screen("slip-when")
        for _ in range(quarters_back):
            self.window.press("slip-time-less")
        self.window.press("next")
        self.window.screen("slip-words")
        self.opened("tell", "slip-thanks")


def all_well(count, display):
    p = Life(count, display, "360x640", False).planned()
    p.open_on("2027-04-05 08:00")
    p.says("Eat plain food only until Monday 19:30", "plain food until twelve hours before")
    p.opened("open-foods", "foods")
    p.says("White rice", "the list says what fits the test")
    p.says("allergic", "and for whom it does not")
    p.window.close()
    p.open_on("2027-04-05 19:25")
    p.window.press("confirm-fast")
    p.window.screen("prepare")
    p.window.close()
    p.open_on("2027-04-05 21:00")
    p.says("Drink water only until Tuesday 07:30", "water only from twelve hours before")
    p.opened("open-evening", "evening")
    p.patient.walk("prepare")
    p.opened("other-things", "prepare-more")
    p.opened("other-reminders", "reminders")
    p.says("06:", "an ordinary alarm clock is set for the hour before the start")
    p.opened("files", "reminders-where")
    p.opened("place-1", "reminders-written")
    written = subprocess.run(["find", p.data, "-name", "*.ics", "-o", "-name", "*.pdf"],
                             capture_output=True, text=True, check=True).stdout.split()
    count.check(len(written) == 2, f"a calendar and a page were written: {written}")
    p.window.close()
    p.open_on("2027-04-06 06:25")
    p.window.press("confirm-awake")
    p.window.close()
    p.open_on("2027-04-06 07:31")
    p.opened("open-morning", "morning")
    p.patient.walk("gate")
    count.check(p.to_the_check() == "gate-check", "nothing stands against the start")
    p.says("All rules kept", "the last page says so")
    p.opened("all-rules", "gate-rules")
    p.window.press("back")
    p.window.screen("gate-check")
    p.window.press("ready")
    p.window.screen("sugar")
    p.window.close()


def a_slip(count, display):
    p = Life(count, display, "480x800", False).planned()
    p.open_on("2027-04-05 22:00")
    p.tell_slip("slip-fast-meal", 2)
    p.says("10 h", "a meal at 21:30 leaves ten hours before 07:30")
    p.says("12 h", "and twelve are asked")
    p.says("Thank you", "telling it is thanked for")
    p.window.press("done")
    p.window.screen("prepare")
    p.opened("open-slip", "slip")
    p.opened("open-low-sugar", "low-sugar")
    p.says("Treat it at once", "a low blood sugar is treated, test or no test")
    p.window.close()
    p.at_the_check_on("2027-04-06 07:31")
    p.says("The laboratory will see this", "ten hours are under what is asked, over the least")
    count.check(p.window.has("ready"), "the person may start")
    p.window.close()


def a_slip_too_near(count, display):
    p = Life(count, display, "360x640", False).planned()
    p.open_on("2027-04-06 00:45")
    p.tell_slip("slip-fast-meal", 1)
    p.says("7 h", "a meal at 00:30 leaves seven hours")
    p.says("8 h", "and eight are the least that was published")
    p.opened("open-choose", "choose-start")
    p.window.close()
    p.at_the_check_on("2027-04-06 07:31")
    p.says("Do not start", "under the least nobody is sent on")
    count.check(not p.window.has("ready"), "and no press starts it")
    p.opened("they-agreed", "gate-agreed")
    count.check(p.window.element("ready")["state"] == "waiting", "not before it is said who agreed")
    p.window.close()


def an_answer_that_holds(count, display):
    p = Life(count, display, "360x640", False).planned()
    p.open_on("2027-04-06 07:31")
    p.patient.walk("gate-morning")
    w = p.window
    w.press("morning-fever")
    w.press("some-true")
    w.screen("held")
    p.look(w, "held")
    p.says("Do not start yet. Ask the laboratory", "a yes has its page at once")
    p.says("Do not drink the test sugar", "and says what must not be")
    p.opened("may-go-on", "held-who")
    w.press("releaser-laboratory")
    w.type("gate-who", "Ms Quill")
    w.press("go-on")
    w.screen("gate")
    count.check(p.to_the_check() == "gate-check", "and with it the start is free")
    w.close()


def an_answer_taken_back(count, display):
    p = Life(count, display, "480x800", False).planned()
    w = p.open_on("2027-04-06 07:31")
    p.patient.walk("gate-morning")
    w.press("morning-low-sugar")
    w.press("some-true")
    w.screen("held")
    p.says("Do not start today", "low sugar this morning ends it")
    count.check(not w.has("may-go-on"), "whoever says otherwise")
    w.kill()
    w = p.open_on("2027-04-06 07:35")
    w.screen("held")
    p.opened("answer-anew", "held-question")
    p.opened("none-true", "answer-again")
    p.opened("again-earlier", "held")
    p.opened("answer-anew", "held-question")
    p.opened("none-true", "answer-again")
    w.press("again-now")
    w.screen("gate")
    w.close()


def another_packet(count, display):
    p = Life(count, display, "360x640", False).planned()
    w = p.open_on("2027-04-06 07:31")
    p.patient.walk("gate-sugar")
    p.opened("other-packet", "gate-packet-says")
    w.type("packet-says", "sorbitol 20 g")
    w.press("tell-packet")
    w.screen("gate-other-sugar")
    p.look(w, "gate-other-sugar")
    p.says("Do not drink this sugar. Call the laboratory", "another packet stays closed")
    p.says("sorbitol 20 g", "with what it says")
    p.opened("look-again", "gate-sugar")
    p.opened("sugar-matches", "packet-again")
    p.says("sorbitol 20 g", "both packets stand on the page before one is taken back")
    p.opened("packet-earlier", "gate-other-sugar")
    p.opened("look-again", "gate-sugar")
    p.opened("sugar-matches", "packet-again")
    w.press("packet-now")
    w.screen("gate")
    count.check(p.to_the_check() == "gate-check", "the right one leads on")
    w.close()


HELD_S = 6


def a_breath_is_held(count, display):
    """A laboratory's own protocol asks that the breath is held before it is blown."""
    p = Person(count, display, "480x800", True)
    p.assets = os.path.join(p.folder, "assets")
    shutil.copytree(ASSETS, p.assets)
    path = os.path.join(p.assets, "protocols", "lactulose-10g.json")
    with open(path, encoding="utf-8") as file:
        test = json.load(file)
    test["breath"]["hold"] = {"rule": "breath-hold", "seconds": HELD_S, "source": "kit-practice"}
    with open(path, "w", encoding="utf-8") as file:
        json.dump(test, file)
    w = p.start()
    p.patient.walk("breathe-how")
    shown = w.words()
    while w.has("page-more"):
        w.press("page-more")
        shown += w.words()
    count.check(f"hold your breath for {HELD_S} seconds" in shown, f"how to blow says it: {shown}")
    p.patient.walk("lead-in")
    w.wait("holding", lambda o: o["screen"] == "hold-breath")
    p.look(w, "hold-breath")
    count.check("Hold your breath" in w.words(), f"the guide says so: {w.words()}")
    w.wait("blowing", lambda o: o["screen"] == "blowing")
    p.patient.walk("label")
    w.close()


def canonical(value):
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)


def planned_by_earlier_rules(data):
    """The plan in that folder's journal as an earlier version of the program had made it."""
    name = next(n for n in os.listdir(os.path.join(data, "tests")) if n.endswith(".journal"))
    with open(os.path.join(ROOT, EARLIER), encoding="utf-8") as file:
        rules = json.load(file)
    known = {w["rule"] for w in rules["preparation"]["windows"]}
    path = os.path.join(data, "tests", name)
    events = [json.loads(body) for _, body, _ in rows_of(path)]
    for event in events:
        if event["kind"] == "plan":
            event["data"]["protocol"] = rules
            event["data"]["windows"] = [w for w in event["data"]["windows"] if w["rule"] in known]
    for end in (".journal", ".journal-journal", ".key-1", ".key-2"):
        if os.path.exists(path.replace(".journal", end)):
            os.remove(path.replace(".journal", end))
    write_unsealed(path, events)


def write_unsealed(path, events):
    """Those events as a journal of version 1, which had no key (app/store/journal_file.hpp)."""
    os.close(os.open(path, os.O_CREAT | os.O_EXCL, 0o600))
    journal = sqlite3.connect(path)
    journal.executescript(
        "CREATE TABLE meta(key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;"
        "CREATE TABLE event(seq INTEGER PRIMARY KEY, body TEXT NOT NULL, hash TEXT NOT NULL)"
        " STRICT;"
        "CREATE TABLE draft(key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;"
        "INSERT INTO meta VALUES('format','quarterbreath-journal'),('version','1');")
    before = "0" * 64
    for event in events:
        body = canonical(event)
        before = hashlib.sha256(f"{before}\n{body}".encode()).hexdigest()
        journal.execute("INSERT INTO event VALUES(?,?,?)", (event["seq"], body, before))
    journal.commit()
    journal.close()


def a_plan_of_earlier_rules(count, display):
    p = Life(count, display, "480x800", False).planned()
    planned_by_earlier_rules(p.data)
    w = p.open_on("2027-04-05 12:00")
    w.screen("held-old-rules")
    p.reads("What you told us stays", "the page says why, and that nothing is lost")
    w.press("open-choose")
    w.screen("choose-hours")  # what was typed and not told lay in the journal that was made anew
    w.press("any-day")
    w.screen("choose-start")
    p.look(w, "choose-start")
    w.close()


def too_early(count, display):
    p = Life(count, display, "800x480", False).planned()
    shown = p.at_the_check_on("2027-04-06 06:30")
    count.check(shown == "gate-early", "before the planned time it says to wait")
    p.says("Wait until Tuesday 07:30", "and until when")
    p.opened("start-now", "gate-check-short")
    p.comes_to("2027-04-06 07:00", "11 h 30",
               "water only since 19:30 is eleven hours and a half at 07:00")
    count.check(p.window.has("ready"), "over the least the person may start")
    p.window.close()
    p.at_the_check_on("2027-04-06 03:15")
    p.opened("start-now", "gate-check-short")
    p.says("Do not start: call the laboratory",
           "seven hours and three quarters are under the least")
    p.opened("they-agreed", "gate-agreed")
    p.window.close()


def too_late(count, display):
    p = Life(count, display, "360x640", False).planned()
    p.open_on("2027-04-06 10:00")
    p.reads("You planned Tuesday 07:30", "a late start is told as one")
    count.check(p.to_the_check() == "gate-check", "later than planned breaks no rule")
    p.window.close()


def moved_and_called_off(count, display):
    p = Life(count, display, "360x640", False).planned()
    p.open_on("2027-04-04 12:00")
    p.opened("other-things", "prepare-more")
    p.opened("other-move", "choose-start")
    p.window.press("day-more")
    p.says("Wednesday 7 April", "the start is a day later")
    p.window.press("next")
    p.window.screen("choose-review")
    p.look(p.window, "choose-review")
    p.window.press("use-plan")
    p.window.screen("prepare")
    p.reads("Wednesday 07:30", "the home screen has the new start")
    p.opened("other-things", "prepare-more")
    p.opened("other-history", "history")
    p.says("Tuesday", "the earlier plan is kept")
    p.window.press("close")
    p.patient.walk("prepare")
    p.opened("other-things", "prepare-more")
    p.opened("other-off", "call-off")
    p.window.press("call-off")
    p.window.wait("a screen to plan again", lambda o: o["screen"].startswith("choose"))
    p.look(p.window, p.window.outline()["screen"])
    p.says("called off", "it says that nothing is planned now")
    p.patient.walk("prepare")
    p.window.close()


def ask_first(count, display):
    p = Life(count, display, "360x640", False)
    while p.plan("2027-04-04 09:00", LONDON, "choose-cautions") != "choose-cautions":
        pass
    w = p.window
    while "do you have diabetes" not in w.words().lower():
        w.press("none-true")
    p.opened("one-true", "choose-ask")
    p.says("diabetes team", "it says whom to ask")
    p.opened("ask-later", "choose-waiting")
    w.close()
    w = p.open_on("2027-04-04 15:00")
    p.says("Diabetes", "after a pause it still says what is waited for")
    w.press("waits-ask-diabetes")
    w.screen("choose-ask")
    p.opened("have-asked", "choose-answer")
    p.opened("allowed", "choose-who-said")
    w.press("who-diabetes")
    w.press("next")
    p.look(w, w.outline()["screen"])
    w.press("write-down")
    p.patient.walk("prepare")
    w.close()


def not_this_test(count, display):
    p = Life(count, display, "480x800", False)
    p.plan("2027-04-04 09:00", LONDON, "choose-cautions")
    p.says("galactosaemia", "lactulose asks of galactosaemia first")
    p.window.press("one-true")
    p.window.wait("the stop page", lambda o: "not for you" in " ".join(
        e["name"] for e in o["elements"]))
    p.look(p.window, p.window.outline()["screen"])
    p.says("01632 960 417", "and whom to call")
    p.window.close()


def clock_change_night(count, display):
    p = Life(count, display, "360x640", False)
    # Clocks go back on Sunday 31 October 2027 at 02:00: twelve hours before 07:30 is 20:30.
    p.plan("2027-10-29 20:00", LONDON)
    p.reads("Sunday 07:30", "the start is on the morning after the change")
    p.opened("other-things", "prepare-more")
    p.opened("other-plan", "timeline")
    p.says("20:30", "water only begins twelve elapsed hours before")
    p.window.press("close")
    p.window.close()
    p.open_on("2027-10-30 12:00")
    p.says("until Saturday 20:30", "plain food is eaten an hour longer by the clock")
    p.window.close()
    p.open_on("2027-10-31 05:00")
    if p.window.has("page-more"):
        p.window.press("page-more")
    p.comes_to("2027-10-31 06:00", "in 1 h 30", "by then the clocks agree with what is left")
    p.window.close()


def travel(count, display):
    p = Life(count, display, "360x640", False).planned()
    p.open_on("2027-04-05 10:00", BERLIN)
    p.says("until Monday 20:30", "times are those of the device")
    p.reads("Tuesday 08:30", "the plan keeps its moment: half past eight in Berlin")
    p.reads("07:30 in Europe/London", "and says what it was planned as")
    p.window.close()


def seven_tubes(count, display):
    made = subprocess.run([LAB, "--assets", ASSETS, "kit-code", "--protocol", "lactose-25g",
                           "--serial", "2C7H", "--expires", "2027-12-31"],
                          capture_output=True, text=True, check=True).stdout
    code = made.split()[0]
    p = Life(count, display, "360x640", False)
    p.plan("2027-04-04 09:00", LONDON, "who-kit-code")
    p.window.type("who.code", code[:-1] + ("2" if code[-1] != "2" else "3"))
    p.says("is not right", "a wrong character is seen at once")
    p.window.erase("who.code", len(code))
    p.window.press("key-done")
    p.window.type("who.code", code)
    p.look(p.window, "who-kit-code")
    p.says("FV-2C7H", "the code names the kit")
    p.says("Lactose", "and its test")
    p.window.press("this-kit")
    p.patient.walk("prepare")
    count.check("choose-test" not in p.patient.seen, "nobody has to know their sugar")
    p.window.close()
    p.open_on("2027-04-05 21:00")
    p.opened("other-things", "prepare-more")
    p.window.press("other-list")
    p.window.screen("evening")
    p.opened("open-labels", "labels")
    p.says("8, 9 and 10 stay empty", "seven of the ten tubes are used")
    p.window.close()


def a_letter_without_a_font(count, display):
    """Told while it is typed, not at the end: paper has a square for it, and a code beside."""
    p = Life(count, display, "360x640", False)
    p.plan("2027-04-04 09:00", LONDON, "who-name")
    name = "\uae40 Oakhollow"  # a Hangul syllable: no font that is asked for here has one

    def told():
        p.keep(p.window, "no-font")
        said = p.window.element("who.name-letters")["name"]
        count.check("square" in said and "code" in said, f"while it is typed: {said!r}")

    p.window.type("who.name", name, told)
    said = p.window.element("who.name-hint")["name"]
    count.check("square" in said, f"and as it stands there: {said!r}")
    p.look(p.window, "who-name")
    p.window.close()


SITUATIONS = [a_breath_is_held, a_plan_of_earlier_rules, ask_first, an_answer_that_holds,
              an_answer_taken_back, another_packet, seven_tubes, clock_change_night, all_well,
              moved_and_called_off, not_this_test, a_slip, a_slip_too_near, too_early, too_late,
              travel, a_letter_without_a_font]


def plan_once(count, display):
    """The plan that most situations begin with, made once in the window."""
    p = Life(count, display, "360x640", False)
    p.plan("2027-04-04 09:00", LONDON)
    p.reads("Tuesday 07:30", "the start that was offered")
    p.window.close()
    shutil.copytree(p.data, BASE)


if __name__ == "__main__":
    sys.exit(run_suite("situations", "situations", [plan_once], SITUATIONS))
