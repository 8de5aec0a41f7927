"""The device: killed, full, opened twice, shared, its clocks set."""
import os
import resource
import subprocess

import mounts
from person import ASSETS, PROGRAM
from tester import AT_REST, LONDON, Tester

BOOT_ID = "/proc/sys/kernel/random/boot_id"
KEPT = "All you told us is safe"


def kill_and_return(p, *goals, off_s=20):
    """The power fails; after a while the program is opened again and asks whose test it is."""
    p.window.kill()
    p.clocks.let_pass(off_s)
    p.open()
    p.window.screen("return")
    p.says(KEPT, "after a kill it says what it holds")
    p.says("Maren Oakhollow", "and whose test it is")
    p.says("FV-2071", "with the kit's number")
    p.window.press("go-on")
    shown = p.window.screen(*goals)
    p.look(p.window, shown)
    return shown


def killed_everywhere(count, display):
    p = Tester(count, display)
    p.open_and_go_on()
    p.window.screen("breathe")
    p.blow()
    kill_and_return(p, "label")
    p.window.press("label-done")
    p.window.press("drink-start")
    kill_and_return(p, "drinking")
    p.says("You began Tuesday 07:4", "the drink's beginning is kept")
    p.window.press("drink-end")
    kill_and_return(p, *AT_REST)
    p.to_due()
    p.window.press("begin-breath")
    p.window.wait("the lead-in", lambda o: o["screen"] in ("lead-in", "blowing"))
    kill_and_return(p, "unsure")
    p.says("Did you close tube 2?", "a breath that nobody saw closed is asked about")
    p.says("We do not know if you closed it", "and it says what it does not know")
    p.window.press("unsure-no")
    p.on("breathe")
    p.guided()
    kill_and_return(p, "unsure")
    p.opened("unsure-yes", "tell")
    kill_and_return(p, "unsure")
    p.opened("unsure-yes", "tell")
    p.window.press("tell-read")
    p.patient.walk("symptoms-pain")
    kill_and_return(p, "symptoms-pain")
    p.settle()
    p.clocks.let_pass(0)
    kill_and_return(p, "breathe", "breathe-late", off_s=p.left_s() + 60)
    p.says("while this program was off", "a tube that was due meanwhile is stated, not hidden")
    p.says("Blow now: you have until 08:17", "and is blown now, and until when it counts")
    p.blow()
    p.settle()
    r = p.end()
    count.check((r.tube(1)["how"], r.tube(2)["how"], r.tube(3)["how"])
                == ("observed", "told", "observed"), f"each time says how it is known: {r.test}")
    count.check(len(r.events("resumed")) == 10, f"returns: {len(r.events('resumed'))}")
    count.check(r.tube(2)["scores"] == {"bloating": 2, "pain": 0, "nausea": 1},
                "marks given before the kill are kept")


def refuse_writes(window, refuse):
    """What a full disk does: no file may grow beyond where the record already is."""
    least = 16 * 1024  # the outline and the pictures of a page still fit
    size = least if refuse else resource.RLIM_INFINITY
    resource.prlimit(window.process.pid, resource.RLIMIT_FSIZE, (size, resource.RLIM_INFINITY))


def disk_full(count, display):
    p = Tester(count, display)
    p.wrap = ("env", "--ignore-signal=XFSZ")  # so that a write is refused, as a full disk refuses
    p.open_and_go_on()
    p.window.screen("breathe")
    p.guided()
    refuse_writes(p.window, True)
    p.window.press("tube-closed")
    p.window.wait("the trouble", lambda o: any(e["key"] == "trouble" for e in o["elements"]))
    p.look(p.window, p.window.outline()["screen"])
    p.window.picture(os.path.join(p.folder, "screens", "disk-full.png"))
    p.says("cannot save right now", "a disk that refuses is said at once")
    p.says("Write on paper: tube 1 closed", "with what to write on paper")
    p.says("07:40", "and the time")
    p.on("label")  # the test goes on as if it were written
    p.pass_(30)
    p.says("07:40", "the time stays")
    p.opened("unwell", "unwell")
    p.says("You may stop the test and eat", "help does not wait for a disk")
    p.window.press("unwell-over")
    p.window.press("red-flags-none")
    p.pass_(20)
    p.on("label")
    refuse_writes(p.window, False)
    p.pass_(1)
    p.window.wait("no trouble", lambda o: all(e["key"] != "trouble" for e in o["elements"]))
    p.on("label")
    p.says("07:40", "with room again the entry is written, with its own time")
    p.says_not("cannot save", "and nothing is said any more")
    p.settle()
    r = p.end()
    closed, = r.events("tube-closed")
    count.check(closed["at"]["wall"].startswith("2027-04-06T06:40:"), f"its own time: {closed}")
    count.check(len(r.events("unwell")) == 1, "feeling unwell was kept")


def second_copy_and_second_person(count, display):
    p = Tester(count, display, "480x800")
    p.open_and_go_on()
    p.begin()
    env = dict(display.env, TZ=LONDON, **p.clocks.env)
    again = subprocess.run([PROGRAM, "--assets", ASSETS, "--data", p.data], env=env, check=False,
                           capture_output=True, text=True, timeout=30)
    count.check(again.returncode != 0 and "one copy" in again.stderr,
                f"a second copy is refused: {again.returncode} {again.stderr}")
    practice = subprocess.run([PROGRAM, "--assets", ASSETS, "--data", p.data, "--rehearsal"],
                              env=env, check=False, capture_output=True, text=True, timeout=30)
    count.check(practice.returncode != 0, "nor can practice be begun beside it")
    p.window.close()
    p.open()
    p.on("return")
    p.says("Maren Oakhollow", "at each start it says whose test it is")
    p.says("FV-2071", "and which kit")
    p.says("Not your name? Stop here and call 01632 960 417", "and what another person does")
    p.window.press("go-on")
    p.window.screen(*AT_REST)
    p.end()
    p.open()
    p.on("return")
    p.window.press("go-on")
    p.window.screen("finish")
    p.window.press("begin-anew")
    p.on("agree")
    p.window.close()
    count.check(len(os.listdir(os.path.join(p.data, "tests"))) >= 1, "the first record stays")


def clocks_set(count, display):
    p = Tester(count, display)
    p.open_and_go_on()
    p.begin()
    left = p.left_s()
    p.clocks.set_wall(3600)
    p.window.nudge()
    p.window.wait("a word on the clock", lambda o: "ahead" in p.window.words())
    p.look(p.window, p.window.outline()["screen"])
    p.keep(p.window, "wait")
    p.says("clock was set 1 h ahead", "it says calmly what happened")
    count.check(abs(p.left_s() - left) < 30, f"and tube 2 is due when it was: {left} {p.left_s()}")
    p.says("Tuesday 08:55", "shown as the clock now has it")
    p.to_due()
    p.blow()
    label = p.window.words()
    count.check("08:55" in label, f"the label has the device's time: {label}")
    p.clocks.set_wall(-3600 - 1800)
    p.window.nudge()
    count.check("08:55" in p.window.words(), "and keeps the time it was told to show")
    p.settle()
    p.says("back", "a clock set back is said too")
    p.keep(p.window, "wait")
    p.tubes(3)
    p.zone = "Europe/Berlin"
    p.window.close()
    p.open_and_go_on()
    p.says("another time zone", "another zone too")
    p.keep(p.window, "wait")
    p.tubes(4)
    r = p.end()
    late = [t["late_s"] for t in r.test["tubes"][:4]]
    count.check(all(0 <= s < 60 for s in late), f"all four were on time: {late}")
    steps = [round(e["data"]["by_ms"] / 60000) for e in r.events("clock-changed")
             if e["data"]["change"] == "stepped"]
    count.check(steps == [60, -90], f"the log has each step and its size: {steps}")
    count.check("time zone was changed" in r.words(), r.words())


@mounts.needed("mount", "--bind", "/proc/version", BOOT_ID)
def restarted_in_1970(count, display):
    p = Tester(count, display)
    p.open_and_go_on()
    p.begin()
    p.tubes(2)
    p.window.kill()
    boot = os.path.join(p.folder, "boot_id")
    with open(boot, "w", encoding="ascii") as file:
        file.write("00000000-0000-4000-8000-000000000001\n")
    p.wrap = (*mounts.OWN, "sh", "-c", f'mount --bind {boot} {BOOT_ID} && exec "$@"', "sh")
    p.clocks.begin_boot(off_s=120)
    true_wall = p.clocks.wall_ms()
    p.clocks.set_wall(-true_wall / 1000 + 40)  # forty seconds after midnight, 1 January 1970
    p.open()
    p.on("return")
    p.says(KEPT, "it comes back")
    p.says("we do not know how long", "and does not claim to know how long it was off")
    p.window.press("go-on")
    p.on(*AT_REST)
    p.says("The device was off", "and says what it assumes")
    p.says("at least", "and what is sure")
    p.keep(p.window, "wait")
    p.clocks.set_wall(true_wall / 1000 - 40)  # a time service sets it right
    p.window.nudge()
    p.window.wait("a word on the clock", lambda o: "another day" in p.window.words())
    p.keep(p.window, "wait")
    p.says("Tuesday 08:10", "tube 3 is due when it always was")
    p.to_due()
    p.blow()
    p.settle()
    r = p.end()
    three = r.tube(3)
    count.check(three["due"][11:16] == "08:10" and three["standing"] == "on-time",
                f"tube 3 is at its time: {three}")
    changes = [e["data"]["change"] for e in r.events("clock-changed")]
    count.check(changes.count("rebooted") == 1 and "stepped" in changes, f"in the log: {changes}")
    count.check("restarted" in r.words() and "at least" in r.words(), r.words())


DEVICE = [killed_everywhere, disk_full, clocks_set, restarted_in_1970,
          second_copy_and_second_person]
