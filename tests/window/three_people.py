"""Three people in the real window: one who must not take the test and tries every door, one who
changes her mind twice, and one who gets worse at tube 6.

What they are shown is held against what the laboratory is told in the end.
"""
import os
import shutil
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from mishaps_body import score  # noqa: E402
from person import WORK  # noqa: E402
from runner import run_suite  # noqa: E402
from tester import AT_REST, DAY_OF_TEST, LONDON, PLANNED, Tester, to_tube_1  # noqa: E402

FRUCTOSE = os.path.join(WORK, "plan-fructose")
MORNING = "2027-04-06 07:31"
HEREDITARY = "made you very ill"
DIABETES = "do you have diabetes"


def fructose_planned(count, display):
    """A plan for the fructose test with every question answered no, made once."""
    p = Tester(count, display, at="2027-04-04 09:00", base=None)
    p.open()
    p.patient.walk("choose-test")
    p.window.press("test-fructose-25g")
    p.window.press("next")
    p.patient.walk("prepare")
    p.window.close()
    shutil.copytree(p.data, FRUCTOSE)


def remember_at_the_sugar(p, words, answer):
    """With the sugar before her: the questions before the plan once more, and this one answered."""
    p.window.screen("sugar")
    p.window.press("open-choose")
    p.window.wait("the plan", lambda o: o["settled"] and o["screen"].startswith("choose"))
    for _ in range(40):
        if words in p.words_on_leaves().lower() and p.window.has("one-true"):
            return p.window.press(answer)
        p.window.press("back")
        p.window.wait("the page before", lambda o: o["settled"])
    return p.count.check(False, f"no question says {words!r}")


def must_not_drink(count, display):
    p = Tester(count, display, at=MORNING, base=FRUCTOSE)
    p.open_and_go_on()
    w = p.window
    p.patient.walk("sugar")
    # The answer comes late: she remembers it with the glass before her.
    remember_at_the_sugar(p, HEREDITARY, "not-sure")
    p.on("held")
    p.says("This test is not for you", "not sure is enough to keep the glass closed")
    count.check(not w.has("may-go-on"), "and nobody may release it")
    # Opened again, another day, by another door.
    w.kill()
    w = p.open()
    if w.screen("return", "held") == "return":
        w.press("go-on")
    p.on("held")
    p.opened("answer-anew", "held-question")
    p.opened("none-true", "answer-again")
    p.opened("again-earlier", "held")
    p.opened("not-today", "gate-not-today")
    p.window.press("back")
    p.on("held")
    # What was done all the same is taken down, and help comes first.
    p.opened("drank-first", "drank-first")
    p.window.press("tell-read")
    p.on("unwell")
    p.says("112", "it says whom to call")
    count.check(not w.has("unwell-over"), "and no going on is offered")
    p.stops()
    r = p.hand_over()
    against = "drunk while this stood against it: Hereditary fructose intolerance"
    count.check(against in r.words(), f"the laboratory is told: {r.words()}")


def changes_her_mind(count, display):
    p = Tester(count, display, at=MORNING, base=PLANNED_ONLY)
    p.open_and_go_on()
    w = p.window
    p.patient.walk("sugar")
    for _ in range(2):
        remember_at_the_sugar(p, DIABETES, "one-true")
        p.on("held")  # over the page on which it was said
        p.says("Do not drink the test sugar", "a yes counts wherever it is given")
        p.opened("answer-anew", "held-question")
        p.opened("none-true", "answer-again")
        p.says("You said yes", "both answers are shown before one is taken back")
        w.press("again-now")
        w.screen("sugar")
    p.patient.walk("breathe")
    p.begin()
    r = p.end()
    taken = [f for f in r.test["findings"] if f["rule"] == "answer-taken-back"]
    count.check(len(taken) == 2, f"each change of mind stands with its times: {r.words()}")


def worse_at_tube_6(count, display):
    p = Tester(count, display)
    p.open_and_go_on()
    p.begin()
    p.tubes(2, 3, 4, 5)
    p.to_due()
    p.blow()
    score(p, (2, 10, 1))
    p.on("red-flags")
    p.window.press("drowsy")
    p.window.press("red-flags-some")
    p.on("unwell")
    p.says("112", "whom to call")
    first = [e["key"] for e in p.window.outline()["elements"]]
    count.check(first.index("stop-test") < first.index("unwell-passed"), f"to stop leads: {first}")
    p.opened("unwell-passed", "unwell-passed")
    p.window.press("has-passed")
    p.window.screen(*AT_REST)
    p.to_due()
    p.blow()
    score(p, (2, 10, 1))
    p.window.screen(*AT_REST, "red-flags")
    p.opened("unwell", "unwell")
    p.stops()
    p.on("finish")
    r = p.hand_over()
    told = r.findings
    count.check("warning signs told at tube 6: " in r.words(), r.words())
    count.check(r.log["summary"]["ended_early"] is not None, f"it was stopped: {sorted(told)}")
    felt = {x["id"]: x["score"] for e in r.events("symptoms") if e["data"]["sample"] == 6
            for x in e["data"]["scores"]}
    count.check(felt["pain"] == 10, f"with what was felt: {felt}")


PEOPLE = [must_not_drink, changes_her_mind, worse_at_tube_6]
PLANNED_ONLY = os.path.join(WORK, "plan-lactulose")


def planned(count, display):
    p = Tester(count, display, at="2027-04-04 09:00", base=None)
    p.open()
    p.patient.walk("prepare")
    p.window.close()
    shutil.copytree(p.data, PLANNED_ONLY)


if __name__ == "__main__":
    sys.exit(run_suite("three_people", "people", [fructose_planned, planned, to_tube_1], PEOPLE))
