"""The drink: too early, too late, slowly, spilled, not kept."""
from tester import Tester


def drank_first(count, display):
    p = Tester(count, display)
    p.open_and_go_on()
    p.window.screen("breathe")
    p.opened("drank-first", "drank-first")
    for _ in range(5):
        p.window.press("tell-minutes-less")
    p.says("5 minutes ago Tuesday 07:35", "the time of the first sip is told")
    p.window.press("tell-read")
    p.on("no-baseline")
    p.says("Leave tube 1 empty", "there is no first breath any more")
    p.says("call the laboratory now: 01632 960 417", "it says whom to call")
    p.says("Tube 2 is due Tuesday 07:50", "and what comes next, a quarter after the first sip")
    p.window.press("go-on")
    p.on("drinking")
    p.window.press("drink-end")
    p.on("wait", "heads-up")
    p.says("Tuesday 07:50", "the countdown is to the same time")
    p.tubes(2)
    r = p.end()
    count.check("the drink was begun before tube 1" in r.words(), r.words())
    count.check(r.test["drink_start"][11:16] == "07:35", f"the first sip: {r.test['drink_start']}")
    one, two = r.tube(1), r.tube(2)
    count.check(one["standing"] == "missed", f"tube 1 is empty: {one}")
    count.check(two["due"][11:16] == "07:50" and two["standing"] == "on-time", f"tube 2: {two}")


def drink_delayed(count, display):
    p = Tester(count, display)
    p.open_and_go_on()
    p.window.screen("breathe")
    p.blow()
    p.patient.walk("drink")
    p.says("Drink all of it now", "after tube 1 comes the drink")
    p.pass_(400)
    p.window.wait("the late drink", lambda o: any(e["key"] == "overdue" for e in o["elements"]))
    p.look(p.window, "drink")
    p.says("It is too long since tube 1. Blow into tube 1 again first", "it is too late")
    p.window.press("tube-1-again")
    p.on("breathe")
    p.says("Blow into tube 1 again", "tube 1 is blown again")
    p.blow()
    p.settle()
    p.says("Tuesday 08:02", "tube 2 is due a quarter after the second closing")
    p.tubes(2)
    p.opened("mishap", "mishap")
    count.check(not p.window.has("mishap-drink"), "after tube 2 the end of the drink stands")
    p.window.press("back")
    r = p.end()
    closings = [e["at"]["wall"] for e in r.events("tube-closed") if e["data"]["sample"] == 1]
    count.check(len(closings) == 2, f"both closings of tube 1 are kept: {closings}")
    count.check(r.log["summary"]["anchor"] == closings[1], "and the times count from the second")
    count.check(r.tube(2)["standing"] == "on-time", f"tube 2 is on time by it: {r.tube(2)}")


def drink_not_as_it_should_be(count, display):
    p = Tester(count, display, "480x800")
    p.open_and_go_on()
    p.window.screen("breathe")
    p.blow()
    p.patient.walk("drink")
    p.pass_(120)
    p.opened("drank-already", "drink-told")
    p.window.press("tell-minutes-less")
    p.window.press("tell-read")
    p.on("drinking")
    p.opened("drink-part", "drink-kept")
    p.says("How much of the drink stayed in you?", "how much is asked")
    p.window.press("drink-kept-more-than-half")
    p.on("drink-part")
    p.says("Thank you for telling us", "it is thanked for")
    p.says("The laboratory will look at it", "and says what it means: the laboratory decides")
    p.window.press("go-on")
    p.settle()
    for what, kept, minutes in (("slow", "all", 3), ("spilled", "more-than-half", 2),
                                ("vomited", "less-than-half", 4)):
        p.pass_(120)
        p.opened("mishap", "mishap")
        p.opened("mishap-trouble", "drink-what")
        p.opened("drink-what-" + what, "drink-kept")
        p.opened("drink-kept-" + kept, "drink-when")
        for _ in range(minutes):
            p.window.press("tell-minutes-less")
        p.opened("tell-guess", "drink-part")
        p.window.press("go-on")
        p.window.screen("wait", "heads-up")
    r = p.end()
    said = r.words()
    for words in ("the drink was not finished at 07:4", "more than half was kept",
                  "the drink was drunk slowly at 07:4", "the drink was spilled at 07:4",
                  "the drink was vomited at 07:4", "less than half was kept",
                  "start of the drink told afterwards"):
        count.check(words in said, f"{words!r} in {said!r}")
    weights = {rule: f["weight"] for rule, f in r.findings.items() if rule.startswith("drink-")}
    count.check(weights["drink-vomited"] == "review" and weights["drink-slow"] == "note",
                f"what was not kept is for the laboratory to look at: {weights}")
    count.check(r.test["drank_all"] is False, "not all of it was drunk")


DRINK = [drank_first, drink_delayed, drink_not_as_it_should_be]
