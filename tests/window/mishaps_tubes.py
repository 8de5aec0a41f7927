"""Samples in real life: late, missed, blown again, in the wrong tube, put right afterwards."""
from tester import Tester


def late_and_missed(count, display):
    p = Tester(count, display)
    p.open_and_go_on()
    p.begin()
    p.to_due()
    p.says("It is time for tube 2", "now is said")
    p.says("Due Tuesday 07:55. You have until 08:02", "with its time, and until when it counts")
    p.pass_(240)
    p.on("breathe-late")
    p.says("was due Tuesday 07:55", "a late tube says when it was due")
    p.says("There is still time", "and that it is taken now, not left out")
    p.says("please blow by 08:02", "and until when")
    p.blow()
    p.settle()
    p.to_due()
    p.pass_(451)
    p.on("wait")
    p.says("Leave tube 3 empty. It was due at 08:10", "a missed tube is stated")
    p.tubes(4)
    p.pass_(900 * 6 - 60)  # through tubes 5 to 9
    p.on("breathe", "breathe-late", *("wait", "heads-up"))
    p.to_due(late_s=800)
    p.says("please blow by 10:10", "the last tube counts for longer than the others")
    p.blow()
    p.settle("finish")
    p.look(p.window, "finish")
    r = p.hand_over()
    two, three, four, ten = (r.tube(n) for n in (2, 3, 4, 10))
    count.check((two["standing"], two["how"]) == ("late", "observed") and two["late_s"] >= 240,
                f"tube 2 was pressed, and is late: {two}")
    count.check(three["standing"] == "missed" and three["closed"] is None, f"tube 3: {three}")
    count.check(four["standing"] == "on-time" and four["due"] == "2027-04-06T08:25"
                + two["due"][16:], f"tube 4 keeps its own time: {four} {two}")
    count.check(ten["standing"] == "late" and 780 < ten["late_s"] < 900, f"tube 10: {ten}")
    count.check(r.rows[2]["how_known"] == "missed", f"the sheet says missed: {r.rows[2]}")


def the_last_tube_missed(count, display):
    p = Tester(count, display)
    p.open_and_go_on()
    p.begin()
    p.tubes(2)
    r = p.end()
    missed = [t["number"] for t in r.test["tubes"] if t["standing"] == "missed"]
    count.check(missed == list(range(3, 11)),
                f"tubes 3 to 10 are missed in the record, not still to come: {missed}")


def again_in_the_same_tube(count, display):
    p = Tester(count, display, "480x800")
    p.open_and_go_on()
    p.begin()
    p.to_due()
    p.guided()
    count.check(not p.window.has("label-done"), "the tube is closed by a press of the person's")
    p.window.press("tube-closed")
    p.on("label")
    first_label = p.window.words()
    p.opened("mishap", "mishap")
    p.window.press("mishap-lid")
    p.on("breathe")
    p.says("Blow into tube 2 again", "a lid left open: the same tube again")
    p.pass_(60)
    p.blow()
    count.check(p.window.words() != first_label, "the label shows the time of the last closing")
    p.opened("mishap", "mishap")
    p.window.press("mishap-fell")
    p.on("breathe")
    p.pass_(60)
    p.blow()
    p.settle()
    p.opened("mishap", "mishap")
    p.window.press("mishap-label")
    p.window.screen("label")
    spoiled = p.window.words()
    p.pass_(300)
    p.window.press("label-done")
    p.on(*("wait", "heads-up"))
    p.opened("mishap", "mishap")
    p.window.press("mishap-label")
    p.on("label")
    count.check("07:57" in p.window.words() and "07:57" in spoiled,
                f"a spoiled label is written again with its own time: {p.window.words()}")
    p.window.press("label-done")
    r = p.end()
    closings = [e["at"]["wall"] for e in r.events("tube-closed") if e["data"]["sample"] == 2]
    count.check(len(closings) == 3, f"all three closings are kept: {closings}")
    count.check(r.rows[1]["closed_utc"][:19] == closings[2][:19],
                f"the last one counts: {r.rows[1]['closed_utc']} of {closings}")
    reasons = [e["data"]["reason"] for e in r.events("repeat-wanted")]
    count.check(len(reasons) == 2 and "lid" in reasons[0] and "fell" in reasons[1],
                f"with why: {reasons}")


def wrong_tube_and_swapped(count, display):
    p = Tester(count, display)
    p.open_and_go_on()
    p.begin()
    p.tubes(2)
    p.to_due()
    p.blow()
    p.opened("mishap", "mishap")
    p.telling("mishap-tube", "right-on", "right-other-4", "right-why-mixed")
    p.on("breathe", "breathe-late")
    p.says("tube 3", "the tube that stayed empty is blown now")
    p.blow()
    p.settle()
    p.to_due()
    p.says("tube 4", "the other one is blown again at its own time")
    p.blow()
    p.settle()
    p.tubes(5, 6)
    p.opened("mishap", "mishap")
    p.telling("mishap-tube", "right-on", "right-other-5", "right-why-mixed")
    p.on("label")
    p.says("label 5", "both labels are written anew")
    p.settle()
    r = p.end()
    told = {e["data"]["sample"]: e["at"]["wall"][:19] for e in r.events("tube-closed")}
    sheet = [row["closed_utc"][:19] for row in r.rows]
    count.check((sheet[4], sheet[5]) == (told[6], told[5]),
                f"the sheet has the two the right way round: {sheet} {told}")
    count.check("tubes 6 and 5 were swapped" in r.words(), f"and the record says so: {r.words()}")
    count.check("the breath told of tube 3 went into tube 4" in r.words(), r.words())
    count.check(all(row["closed_utc"] for row in r.rows[:6]), f"no tube is lost: {sheet}")


def put_right_afterwards(count, display):
    p = Tester(count, display)
    p.open_and_go_on()
    p.begin()
    p.tubes(2, 3)
    due_before = p.window.element("quarter")["value"]
    p.opened("mishap", "mishap")
    p.telling("mishap-score", "right-tube-less", "right-on", "right-bloating", "score-6",
              "right-why-pressed")
    p.opened("mishap", "mishap")
    p.telling("mishap-time", "right-on", "right-time-less", "right-time-less")
    p.says("We wrote down Tuesday 08:10", "what was written down first stays in sight")
    p.telling("right-on")
    p.says("How do you know?", "the reason is asked")
    p.telling("right-why-clock")
    p.says("08:08", "the label is written anew with the corrected time")
    p.window.press("label-done")
    p.on("wait")
    count.check(abs(int(due_before.split(":")[0]) - p.left_s() // 60) <= 1,
                "the times of the test stay as they are")
    p.let_it_end()
    p.opened("mishap", "mishap")  # also when the test is behind
    p.telling("mishap-time", "right-tube-less", "right-tube-less", "right-on", "right-time-less",
              "right-on", "right-why-later")
    p.settle("finish")
    r = p.hand_over()
    told = {e["data"]["sample"]: e for e in r.events("tube-closed")}
    count.check(r.rows[1]["bloating"] == "6", f"the sheet has the corrected mark: {r.rows[1]}")
    first = next(e for e in r.events("symptoms") if e["data"]["sample"] == 2)
    count.check({"id": "bloating", "score": 2} in first["data"]["scores"], "the log has the first")
    count.check(r.rows[2]["closed_local"][11:16] == "08:08" and r.rows[2]["how_known"] == "told",
                f"the sheet has the corrected time, as told: {r.rows[2]}")
    count.check(told[3]["at"]["wall"][11:16] == "07:10", "and the log the observed one")
    count.check("time of tube 3 corrected from 08:10 to 08:08: I read it off another clock"
                in r.words(), f"both stand in the report: {r.words()}")
    due = [row["due_utc"] for row in r.rows]
    count.check(due[0][:19] == told[1]["at"]["wall"][:19],
                f"a corrected tube 1 moves nothing: {due[0]}")


def close_together_and_too_short(count, display):
    p = Tester(count, display, "800x480")
    p.open_and_go_on()
    p.begin()
    p.to_due()
    p.window.press("begin-breath")
    p.window.wait("the lead-in", lambda o: o["screen"] == "lead-in")
    count.check(not p.window.has("tube-closed"), "before the breath nothing can be closed")
    p.pass_(6)
    p.window.wait("the breath", lambda o: o["screen"] == "blowing")
    count.check(not p.window.has("tube-closed"), "half a breath cannot be told as one")
    p.window.press("break-off")
    p.on("breathe")
    p.pass_(460)
    p.on("wait")
    p.pass_(5 * 60)
    p.opened("tell-missed", "tell")
    p.window.press("tell-read")
    p.patient.walk("wait", "heads-up")
    p.to_due()
    p.opened("begin-breath", "breathe-close")
    p.says("Tube 2 was closed only", "two tubes close together are asked about")
    p.window.press("close-wait")
    p.on("breathe")
    p.window.press("begin-breath")
    p.window.screen("breathe-close")
    p.window.press("close-begin")
    p.guide_ends()
    p.window.press("tube-closed")
    p.window.screen("label")
    p.opened("mishap", "mishap")
    p.window.press("mishap-short")
    p.on("breathe")
    p.says("again", "a breath that was too short is blown again in the same tube")
    p.blow()
    p.settle()
    p.to_due()
    p.opened("already-blown", "tell")
    for _ in range(11):
        p.window.press("tell-minutes-less")
    p.window.press("tell-guess")
    p.on("tell-close")
    p.says("very close to tube 3", "also when it is told")
    p.opened("close-change", "tell")
    for _ in range(11):
        p.window.press("tell-minutes-more")
    p.window.press("tell-guess")
    p.window.screen("label")
    r = p.end()
    count.check("tubes 2 and 3 closed close together" in r.words(), r.words())
    count.check(r.findings["sample-close"]["weight"] == "review", "for the laboratory to look at")
    count.check((r.tube(2)["how"], r.tube(4)["how"]) == ("told", "estimated"),
                f"each time says how it is known: {r.tube(2)} {r.tube(4)}")
    count.check(len(r.events("breath-abandoned")) == 1, "the broken breath is in the log")


def blown_twice_and_broken(count, display):
    p = Tester(count, display, "480x800")
    p.open_and_go_on()
    p.begin()
    p.tubes(2)
    p.pass_(180)
    p.opened("mishap", "mishap")
    p.window.press("mishap-twice")
    p.on("right-time")
    p.says("When did you close tube 2 the last time?", "the last closing counts, so it is asked")
    p.window.press("right-time-more")
    p.window.press("right-time-more")
    p.window.press("right-on")
    p.on("label")
    p.says("07:57", "the label is written with it")
    p.window.press("label-done")
    p.window.screen("wait")
    p.opened("mishap", "mishap")
    p.window.press("mishap-broken")
    p.on("broken")
    p.says("Do not blow into another tube in its place", "a broken tube has no other for it")
    p.says("01632 960 417", "and somebody to ask")
    p.window.press("go-on")
    p.window.screen("wait")
    p.opened("mishap", "mishap")
    p.window.press("mishap-drink-time")
    p.on("right-drink")
    p.telling("right-began", "right-time-less", "right-on", "right-why-other")
    p.on("right-own")
    p.window.type("right-own", "the radio said it")
    p.window.press("right-own-done")
    p.window.screen("wait")
    r = p.end()
    count.check(r.tube(2)["closed"][11:16] == "07:57" and r.tube(2)["how"] == "told",
                f"the sheet has the last closing: {r.tube(2)}")
    count.check("It was blown into twice" in r.words(), f"with why: {r.words()}")
    count.check("07:39: the radio said it" in r.words(), f"also in own words: {r.words()}")
    count.check("Tube 2 is broken" in r.words(), f"the laboratory is told: {r.words()}")
    pressed, = r.events("drink-started")
    count.check(pressed["at"]["wall"][11:16] == "06:40" and r.test["drink_start"][11:16] == "07:39",
                f"the drink's time, corrected and as pressed: {r.test['drink_start']}")


TUBES = [blown_twice_and_broken, late_and_missed, the_last_tube_missed, again_in_the_same_tube,
         wrong_tube_and_swapped, put_right_afterwards, close_together_and_too_short]
