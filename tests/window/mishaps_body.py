"""The person: unwell, at rest for a while, ending the test, scores that rise."""
import json
import os

from person import ASSETS
from tester import AT_REST, Tester

SAFETY = "You may stop the test and eat at any time. Your safety comes first."


def shown_in_full(p):
    return not p.window.has("page-more")


def tell_unwell(p, where):
    p.opened("unwell", "unwell")
    p.says("Sit down and rest now", f"{where}: what to do now")
    p.says(SAFETY, f"{where}: they may stop and eat")
    p.says("Call 112 now", f"{where}: the number of the profile")
    if not shown_in_full(p):
        p.window.press("page-more")
    p.says("01632 960 417", f"{where}: whom to ask")


def unwell_everywhere(count, display):
    p = Tester(count, display)
    p.open_and_go_on()
    p.window.screen("breathe")
    p.blow()
    for screen, key in (("label", "label-done"), ("drink", "drink-start"),
                        ("drinking", "drink-end"), ("wait", None)):
        p.window.screen(screen)
        tell_unwell(p, screen)
        p.window.press("unwell-over")
        p.window.press("red-flags-none")
        p.window.screen(screen)
        if key:
            p.window.press(key)
    p.opened("mishap", "mishap")
    tell_unwell(p, "a page of its own")
    p.window.press("unwell-over")
    p.window.press("red-flags-none")
    p.patient.walk("wait", "mishap")
    if p.window.has("back"):
        p.window.press("back")
    p.to_due()
    tell_unwell(p, "breathe")
    p.window.press("unwell-over")
    p.window.press("red-flags-none")
    p.window.screen("breathe")
    p.window.press("begin-breath")
    p.window.wait("the lead-in", lambda o: o["screen"] == "lead-in")
    tell_unwell(p, "in a breath")
    p.window.press("unwell-over")
    p.window.press("red-flags-none")
    p.on("breathe")  # the breath was broken off, and is taken anew
    p.blow()
    p.window.press("label-done")
    p.window.screen("symptoms-bloating")
    tell_unwell(p, "symptoms")
    p.window.press("unwell-over")
    p.window.press("red-flags-none")
    p.window.screen("symptoms-bloating")
    p.settle()
    r = p.end()
    count.check(len(r.events("unwell")) == 8 == len(r.events("unwell-over")),
                f"each time is in the log: {len(r.events('unwell'))}")
    count.check(r.tube(2)["standing"] == "on-time", "and the test went on")


def the_number_of_a_country(count, display):
    p = Tester(count, display, "800x480", base=None)
    with open(os.path.join(ASSETS, "laboratories", "fenwick-vale.json"), encoding="utf-8") as file:
        profile = json.load(file)
    profile["emergency"] = "01632 960 999"  # invented, as all numbers here
    own = os.path.join(p.folder, "own.json")
    with open(own, "w", encoding="utf-8") as file:
        json.dump(profile, file)
    p.open("--laboratory", own)
    p.window.screen("agree")
    p.opened("unwell", "unwell")
    p.says("Call 01632 960 999 now", "the profile's number, also before anything was begun")
    p.says(SAFETY, "and that safety comes first")
    p.window.close()


def pause_and_end(count, display):
    p = Tester(count, display)
    p.open_and_go_on()
    p.begin()
    p.tubes(2)
    p.opened("unwell", "unwell")
    p.window.press("page-more")
    p.says("While this page is open there is no sound", "a pause is quiet")
    p.pass_(900 + 60)  # tube 3 becomes due meanwhile
    p.on("unwell")
    p.window.press("page-back")
    p.window.press("unwell-over")
    p.window.press("red-flags-none")
    p.on("breathe", "breathe-late")
    p.says("tube 3", "the times went on, and tube 3 is due")
    p.says("Due Tuesday 08:10", "at its own time")
    p.blow()
    p.settle()
    p.opened("unwell", "unwell")
    p.opened("stop-test", "unwell-stop")
    p.says("Nothing you told us is lost", "before it ends it says what becomes of it")
    p.opened("stop-back", "unwell")
    p.window.press("stop-test")
    p.window.screen("unwell-stop")
    p.window.press("stop-sure")
    p.on("afterwards")
    p.says("The test was stopped", "ended")
    p.read_on("afterwards")
    p.on("finish")
    p.says("The test was stopped", "and so says the last page")
    p.says("You may eat", "and eating is allowed again")
    r = p.hand_over()
    count.check([t["number"] for t in r.test["tubes"] if t["closed"]] == [1, 2, 3],
                "all three tubes are handed over")
    count.check(r.log["summary"]["ended_early"] is not None, "with when it ended")
    count.check("unwell" in r.words(), f"and why: {r.words()}")


def score(p, marks):
    """Gives these marks to the three symptoms that are asked."""
    p.window.press("label-done")
    for symptom, mark in zip(("bloating", "pain", "nausea"), marks):
        p.window.screen("symptoms-" + symptom)
        p.window.press(f"score-{mark}")
    p.window.press("symptoms-done")


def scores_that_rise(count, display):
    p = Tester(count, display)
    p.open_and_go_on()
    p.begin()
    p.to_due()
    p.blow()
    score(p, (6, 0, 1))  # 4 above the first: below the laboratory's bound of 5
    p.window.screen(*AT_REST)
    p.to_due()
    p.blow()
    score(p, (7, 0, 1))  # 5 above
    p.on("red-flags")
    said = p.words_on_leaves()
    for words in ("pain in my belly", "fainted", "in my chest", "hard to breathe", "Swollen lips",
                  "Confused", "drowsy", "Blood", "Vomiting"):
        count.check(words.lower() in said.lower(),
                    f"the warning signs are asked in words: {words!r} in {said!r}")
    p.window.press("red-flags-none")
    p.window.screen(*AT_REST)
    p.to_due()
    p.blow()
    score(p, (7, 0, 1))  # as high as when it was asked: not asked again
    p.window.screen(*AT_REST)
    p.opened("mishap", "mishap")
    p.opened("mishap-scorer", "scorer")
    p.window.press("scored-for")
    p.window.screen(*AT_REST)
    p.to_due()
    p.blow()
    score(p, (8, 6, 1))
    p.on("red-flags")
    p.window.press("drowsy")
    p.look(p.window, "red-flags")
    p.window.press("red-flags-some")
    p.on("unwell")
    p.says("112", "a sign leads to what to do now")
    p.opened("unwell-passed", "unwell-passed")
    p.says("drowsy", "going on asks whether what was told has passed")
    p.window.press("has-passed")
    p.window.screen(*AT_REST)
    r = p.end()
    asked = [(e["data"]["sample"], e["data"]["present"]) for e in r.events("red-flags")]
    count.check(asked == [(3, []), (5, ["drowsy"])], f"asked twice, answered: {asked}")
    count.check("warning signs told at tube 5: " in r.words(), r.words())
    count.check([e["data"].get("passed") for e in r.events("unwell-over")] == [True],
                "that it has passed is in the record")
    count.check("symptoms at tube 5 scored by somebody for the person" in r.words(), r.words())


def tell_slip(p, *keys):
    p.opened("mishap", "mishap")
    p.opened("mishap-slip", "slip")
    p.telling(*keys)
    p.on("slip-when")
    p.window.press("next")
    p.on("slip-words")
    p.opened("tell", "slip-thanks")
    p.says("Thank you", "telling it is thanked for")
    p.says("Carry on with each tube at its time", "and the test goes on")
    p.says("The laboratory will look at this", "what it means is not said by the program")
    p.window.press("done")
    p.window.screen(*AT_REST)


def ate_and_slept(count, display):
    p = Tester(count, display)
    p.open_and_go_on()
    p.begin()
    p.tubes(2)
    tell_slip(p, "slip-fast-meal")
    tell_slip(p, "slip-awake-sleep")
    tell_slip(p, "slip-smoke-free-cigarette")
    tell_slip(p, "slip-medicine", "slip-medicine")
    r = p.end()
    for words in ("I ate something, told for", "I slept, told for", "I smoked, told for"):
        count.check(words in r.words(), f"{words!r} in {r.words()!r}")
    count.check(r.words().count("during the test") == 4, f"where they belong: {r.words()}")
    count.check(all(r.findings[rule]["weight"] == "review" for rule in ("fast", "awake")),
                "for the laboratory to look at")


def a_final_sign(count, display):
    p = Tester(count, display)
    p.open_and_go_on()
    p.begin()
    p.to_due()
    p.blow()
    score(p, (9, 0, 1))
    p.on("red-flags")
    p.window.press("blood")
    p.window.press("red-flags-some")
    p.on("unwell")
    p.says("112", "whom to call")
    count.check(not p.window.has("unwell-over") and not p.window.has("unwell-passed"),
                "after such a sign no going on is offered")
    p.stops()
    r = p.hand_over()
    count.check(r.log["summary"]["ended_early"] is not None, "the test has ended")


BODY = [a_final_sign, ate_and_slept, unwell_everywhere, the_number_of_a_country, pause_and_end,
        scores_that_rise]
