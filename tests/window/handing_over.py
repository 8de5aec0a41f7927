"""What leaves the patient's hands in the real window: paper, files on a drive, and erasing.

Drives are small file systems in memory, mounted below a folder of the test's own while the program
runs in mounts of its own (mounts.py): plugged in, full, locked, pulled out. Every page is checked
(checks.py) and kept as a picture, to be looked at.
"""
import glob
import os
import shutil
import signal
import subprocess
import sys

sys.dont_write_bytecode = True
HERE = os.path.dirname(os.path.abspath(__file__))
sys.path[:0] = [HERE, os.path.join(os.path.dirname(HERE), "faults")]
import mounts  # noqa: E402
from driver import Stuck  # noqa: E402
from journal_check import texts_of  # noqa: E402
from patient import PERSON  # noqa: E402
from person import PROGRAM, WORK  # noqa: E402
from runner import run_suite  # noqa: E402
from tester import LONDON, Tester  # noqa: E402

FINISHED = {profile: os.path.join(WORK, "finished-" + profile)
            for profile in ("fenwick-vale", "fenwick-vale-kiosk")}
AFTER = "2027-04-06 12:00"
ONE_FILE = "quarterbreath-FV-2071.sheet.pdf.age"
HOUR = 3600
plugs_in_drives = mounts.needed("mount", "-t", "tmpfs", "-o", "size=8k", "none", WORK)


class Owner(Tester):
    """A person with a finished test, and a folder below which drives appear."""

    def __init__(self, count, display, size="360x640", profile="fenwick-vale", base=True):
        super().__init__(count, display, size, AFTER if base else "2027-04-04 09:00",
                         FINISHED[profile] if base else None)
        self.profile = profile
        self.drives = os.path.join(self.folder, "drives")
        os.mkdir(self.drives)

    def open(self, *more):
        return super().open("--drives", self.drives, "--laboratory", self.profile, *more)

    def mount(self, *words):
        subprocess.run(["nsenter", "-U", "-m", "--preserve-credentials", "-t",
                        str(self.window.process.pid), *words], check=True)

    def lock(self, name, how):
        """`ro` or `rw`. With its type and source named, mount repeats none of the options that it
        finds: the owner is one of them, whom this namespace does not know."""
        self.mount("mount", "-t", "tmpfs", "-o", f"remount,{how}", "none",
                   os.path.join(self.drives, name))

    def plug_in(self, name, size="1m"):
        """Answers where the drive is seen from outside the program's namespace."""
        folder = os.path.join(self.drives, name)
        os.makedirs(folder, exist_ok=True)
        self.mount("mount", "-t", "tmpfs", "-o", f"size={size}", "none", folder)
        return f"/proc/{self.window.process.pid}/root{folder}"

    def row_of(self, name):
        """The row of that drive, once it has appeared by itself."""
        def row(outline):
            return next((e["key"] for e in outline["elements"]
                         if e["key"].startswith("place-") and e["name"].endswith(name)), None)
        def there_or_further(outline):
            return outline["settled"] and (row(outline) or any(
                e["key"] == "page-more" for e in outline["elements"]))
        for _ in range(4):
            seen = self.window.wait(f"the drive {name}", there_or_further)
            if row(seen):
                return row(seen)
            self.window.press("page-more")
        raise Stuck(f"no row for {name}")

    def write_to(self, name):
        self.window.press(self.row_of(name))

    def refused(self, words, why):
        self.window.wait("the trouble", lambda o: o["settled"] and any(
            e["key"] == "trouble" for e in o["elements"]))
        self.look(self.window, "hand-over")
        self.keep(self.window, "refused")
        self.says(words, why)
        self.says("still on this device", "and that nothing is lost")
        self.says_not("Safely saved", "and does not call it written")

    def seen_on_leaves(self, words, why):
        """Turns the page until these words stand on it."""
        for _ in range(4):
            if words in self.window.words().replace("\u00a0", " "):
                break
            if not self.window.has("page-more"):
                break
            self.window.press("page-more")
        self.says(words, why)
        self.keep(self.window, self.window.outline()["screen"])

    def written(self, screen):
        self.window.wait("the files", lambda o: o["settled"] and any(
            e["key"].startswith("file-") for e in o["elements"]))
        self.look(self.window, screen)
        self.keep(self.window, screen)


def lived_through(count, display, profile):
    """A whole test of that laboratory's, with its papers printed before."""
    p = Owner(count, display, profile=profile, base=False)
    p.open()
    p.patient.walk("prepare")
    if profile == "fenwick-vale":
        p.opened("other-things", "prepare-more")
        p.opened("other-papers", "papers")
        p.says("an empty sheet for a pen", "what will be made")
        p.says("plug in a drive", "that a drive can be plugged in")
        p.write_to("device")
        p.written("papers-written")
        p.window.press("done")
        p.window.screen("prepare")
    p.clocks.come_to("2027-04-06 07:31", LONDON)
    p.window.nudge()
    p.window.close()
    p.open_and_go_on()
    p.patient.walk("breathe")
    p.begin()
    p.let_it_end()
    p.window.close()
    shutil.copytree(p.data, FINISHED[profile])


def lived_at_home(count, display):
    lived_through(count, display, "fenwick-vale")
    papers = sorted(os.path.basename(f) for f in glob.glob(
        os.path.join(FINISHED["fenwick-vale"], "handed-over", "*")))
    count.check(papers == ["quarterbreath-FV-2071.empty-sheet.pdf",
                           "quarterbreath-FV-2071.labels.pdf"], f"two papers: {papers}")
    for name, words in (("labels", PERSON["name"]), ("empty-sheet", "+15 min")):
        text = subprocess.run(
            ["pdftotext", "-layout", os.path.join(
                FINISHED["fenwick-vale"], "handed-over", f"quarterbreath-FV-2071.{name}.pdf"),
             "-"], capture_output=True, text=True, check=True).stdout
        count.check(words in text, f"{name} has {words!r}")


def lived_at_a_kiosk(count, display):
    lived_through(count, display, "fenwick-vale-kiosk")


@plugs_in_drives
def to_drives(count, display):
    p = Owner(count, display)
    p.wrap = mounts.OWN
    p.open_and_go_on()
    p.opened("open-hand-over", "hand-over")
    count.check("plug in a drive now" in p.words_on_leaves(), "it says what it waits for")
    if p.window.has("page-back"):
        p.window.press("page-back")
    full = p.plug_in("FULL", "8k")
    p.write_to("FULL")
    p.refused("it is full", "a full drive is told as one")
    count.check(os.listdir(full) == [], f"nothing half written is left: {os.listdir(full)}")
    blue = p.plug_in("BLUE")
    p.lock("BLUE", "ro")
    p.write_to("BLUE")
    p.refused("we cannot save on it", "a locked drive is told as one")
    p.window.press("back")
    p.window.screen("finish")
    p.says_not("we cannot save on it", "the trouble of a drive stays with its page")
    p.opened("open-hand-over", "hand-over")
    p.lock("BLUE", "rw")
    theirs = os.path.join(blue, ONE_FILE)
    with open(theirs, "w", encoding="ascii") as file:
        file.write("somebody else's")
    p.write_to("BLUE")
    p.written("hand-over-written")
    p.says("Safely saved", "what was read back is safe")
    p.says("take the drive out now", "and the drive may be taken out")
    p.says("yours got a number", "and that a name was taken")
    with open(theirs, encoding="ascii") as file:
        count.check(file.read() == "somebody else's", "another's file stays as it is")
    ours = ONE_FILE.replace("FV-2071", "FV-2071-2")
    count.check(sorted(os.listdir(blue)) == sorted([ONE_FILE, ours]),
                f"one file more, and no name in it: {os.listdir(blue)}")
    with open(os.path.join(blue, ours), "rb") as file:
        count.check(file.read().startswith(b"age-encryption.org/v1"), "it is sealed")
    p.says_not("in the folder", "no path of a drive is shown")
    p.says("does not have it yet", "what is on a drive is not the laboratory's")
    p.window.press("back")
    p.window.screen("finish")
    p.seen_on_leaves("the drive BLUE", "where it was written to")
    p.window.close()


@plugs_in_drives
def pulled_out(count, display):
    p = Owner(count, display, "480x800")
    p.wrap = mounts.OWN
    p.open_and_go_on()
    p.opened("open-hand-over", "hand-over")
    p.plug_in("RED")
    row = p.window.element(p.row_of("RED"))
    p.look(p.window, "hand-over")
    p.keep(p.window, "hand-over")
    # The drive goes while the page says that it is being written: the program stands still then.
    p.window.point_at(row)
    p.window.click_here()
    p.window.wait("the writing", lambda o: o["screen"] == "writing")
    p.window.process.send_signal(signal.SIGSTOP)
    p.mount("umount", "-l", os.path.join(p.drives, "RED"))
    p.window.process.send_signal(signal.SIGCONT)
    p.refused("it is not there any more", "a drive that was pulled out is told as one")
    left = os.listdir(os.path.join(p.drives, "RED"))
    count.check(left == [], f"nothing was written beside it: {left}")
    p.plug_in("RED")
    p.write_to("RED")
    p.written("hand-over-written")
    p.says("Safely saved", "plugged in again it is written")
    p.window.close()


def held_in(folder, *words):
    """The files in whose name or bytes one of these words stands, or in what a journal's key
    opens."""
    found = []
    for path, _, names in os.walk(folder):
        for name in names:
            whole = os.path.join(path, name)
            with open(whole, "rb") as file:
                inside = file.read()
            if name.endswith(".journal"):
                inside += "".join(texts_of(whole)).encode()
            found += [whole for w in words if w.encode() in inside or w in name]
    return found


def erased(count, display):
    p = Owner(count, display)
    p.open_and_go_on()
    p.opened("open-hand-over", "hand-over")
    p.write_to("device")
    p.written("hand-over-written")
    p.window.press("back")
    p.window.screen("finish")
    count.check(len(held_in(p.data, *PERSON.values())) > 5, "there is something to erase")
    p.opened("open-erase", "erase")
    p.says("This test will be gone", "which test goes is said")
    p.seen_on_leaves("It cannot be undone", "what erasing means is said")
    p.window.press_twice("erase-on")
    p.window.screen("erase-sure")
    count.check(not p.window.has("erase-now"), "one press of a shaking hand erases nothing")
    p.window.press("keep")
    p.window.screen("finish")
    p.opened("open-erase", "erase")
    p.opened("erase-on", "erase-sure")
    p.telling("erase-all", "erase-undo")
    p.opened("erase-now", "erased")
    left = held_in(p.data, PERSON["name"], PERSON["kit"], PERSON["doctor"], "1957-02-11")
    count.check(left == [], f"no byte of the person is left: {left}")
    p.window.press("done")
    p.window.screen("agree")
    p.window.close()
    p.open()
    p.on("agree")
    p.window.close()


def erased_by_command(count, display):
    p = Owner(count, display)

    def erase(*words):
        return subprocess.run([PROGRAM, "--data", p.data, "erase", *words], check=False,
                              capture_output=True, text=True)

    before = held_in(p.data, *PERSON.values())
    other = erase("FV-9999", "--sure")
    count.check(other.returncode == 2 and "no such test" in other.stderr, other.stderr)
    told = erase("FV-2071")
    count.check(told.returncode == 0 and "Nothing is erased yet" in told.stdout, told.stdout)
    count.check("labels.pdf" in told.stdout, f"it says what would go: {told.stdout}")
    count.check(held_in(p.data, *PERSON.values()) == before, "and changes nothing")
    p.open()
    p.window.screen("return")
    busy = erase("FV-2071", "--sure")
    count.check(busy.returncode != 0 and "one copy" in busy.stderr, busy.stderr)
    p.window.close()
    done = erase("FV-2071", "--sure")
    count.check(done.returncode == 0, done.stderr)
    left = held_in(p.data, PERSON["name"], PERSON["kit"])
    count.check(left == [], f"no byte of the person is left: {left}")


@plugs_in_drives
def kiosk_handed_over(count, display):
    p = Owner(count, display, profile="fenwick-vale-kiosk")
    p.wrap = mounts.OWN
    p.open_and_go_on()
    p.says("It keeps your test until", "a shared device says how long it keeps the test")
    p.opened("open-hand-over", "hand-over")
    count.check(not p.window.has("place-1"), "its own folder is no hand-over")
    drive = p.plug_in("GREEN")
    p.write_to("GREEN")
    p.written("hand-over-written")
    p.says("Copy the times to your paper sheet first", "what goes with the test is said first")
    count.check(os.listdir(drive) == [ONE_FILE], f"on the drive: {os.listdir(drive)}")
    p.window.click_here()  # a second press where the row of the drive stood
    count.check(held_in(p.data, PERSON["name"]) != [], "nothing is erased by a second press")
    if p.window.screen("hand-over-written", "copy") == "copy":
        p.window.press("back")
    if p.window.screen("hand-over-written", "finish") == "hand-over-written":
        p.seen_on_leaves("It stays here until you say so", "nothing is erased before one has it")
        p.opened("have-it", "erase-sure")
        p.window.press("keep")
    p.window.screen("finish")
    p.seen_on_leaves("You saved it", "and the last page says until when it is kept")
    p.opened("have-it", "erase-sure")
    p.telling("erase-all", "erase-undo")
    p.opened("erase-now", "erased")
    p.says("Post the tubes and the paper sheet", "what is left to do is said")
    left = held_in(p.data, PERSON["name"], PERSON["kit"])
    count.check(left == [], f"then no byte of the person is left: {left}")
    count.check(os.listdir(drive) == [ONE_FILE], "and the drive keeps what it has")
    p.window.close()


def kiosk_left_behind(count, display):
    p = Owner(count, display, "480x800", profile="fenwick-vale-kiosk")
    p.open_and_go_on()
    p.clocks.set_wall(365 * 24 * HOUR)
    p.window.nudge()
    p.window.screen("finish")
    p.says_not("This test is erased", "a clock set a year ahead erases nothing")
    p.clocks.set_wall(-365 * 24 * HOUR)
    p.clocks.let_pass(72 * HOUR)
    p.window.nudge()
    p.window.wait("the notice", lambda o: any(e["key"] == "shared-due" for e in o["elements"]))
    p.look(p.window, "finish")
    p.keep(p.window, "finish")
    p.says("Is it yours?", "before it is erased it stands on the screen")
    p.window.press("keep-mine")
    p.window.wait("no notice", lambda o: o["settled"] and all(
        e["key"] != "shared-due" for e in o["elements"]))
    p.pass_(20 * 60)
    p.on("finish")
    count.check(held_in(p.data, PERSON["name"]) != [], "whoever says that it is theirs keeps it")
    p.clocks.let_pass(72 * HOUR)
    p.window.nudge()
    p.window.wait("the notice", lambda o: any(e["key"] == "shared-due" for e in o["elements"]))
    count.check(held_in(p.data, PERSON["name"]) != [], "and it is still there")
    p.pass_(15 * 60)
    p.on("erased")
    left = held_in(p.data, PERSON["name"], PERSON["kit"])
    count.check(left == [], f"then no byte of the person is left: {left}")
    p.window.close()


def kiosk_left_to_another(count, display):
    """Whoever comes next begins anew; the test that nobody comes back to goes by itself."""
    p = Owner(count, display, profile="fenwick-vale-kiosk")
    p.open()
    p.on("return")
    p.window.press("not-mine")
    p.on("agree")
    count.check(held_in(p.data, PERSON["name"]) != [], "another's test stays at first")
    p.pass_(69 * HOUR)
    p.on("agree")
    count.check(held_in(p.data, PERSON["name"]) != [], "and as long as was said")
    p.pass_(3 * HOUR)
    p.window.wait("the test to go", lambda o: held_in(p.data, PERSON["name"], PERSON["kit"]) == [])
    p.on("agree")
    p.window.close()


SCENARIOS = [to_drives, pulled_out, erased, erased_by_command, kiosk_handed_over, kiosk_left_behind,
             kiosk_left_to_another]


if __name__ == "__main__":
    sys.exit(run_suite("handing-over", "ways of handing over and erasing",
                       [lived_at_home, lived_at_a_kiosk], SCENARIOS))
