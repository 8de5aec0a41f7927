"""A record that was damaged, in the real window: there is a page every time, and the times hold.

The plan is that of mishaps.py: tube 1 at 07:40, so tube 2 is due at 07:55. Bytes of the journal are
made wrong while the program is off, as a failing disk or a careless hand does it.
"""
import json
import os
import random
import shutil
import sqlite3
import sys

sys.dont_write_bytecode = True
HERE = os.path.dirname(os.path.abspath(__file__))
sys.path[:0] = [HERE, os.path.join(os.path.dirname(HERE), "faults")]
from journal_check import key_of, opened  # noqa: E402
from runner import run_suite  # noqa: E402
from tester import Tester, to_tube_1  # noqa: E402

FLIPS, SEED = 20, 20270406


class Damaged(Tester):
    """A tester whose journal can be written over while the window is closed."""

    def journal(self):
        folder = os.path.join(self.data, "tests")
        return next(os.path.join(folder, name) for name in sorted(os.listdir(folder))
                    if name.endswith(".journal"))

    def bytes(self):
        with open(self.journal(), "rb") as file:
            return file.read()

    def put(self, content):
        with open(self.journal(), "wb") as file:
            file.write(content)

    def lose(self, kind):
        """Every entry of that kind, by three wrong bytes each."""
        with sqlite3.connect(self.journal()) as db:
            rows = db.execute("SELECT seq, sealed FROM event").fetchall()
        db.close()
        key, content = key_of(self.journal()), bytearray(self.bytes())
        lost = [sealed for seq, sealed in rows
                if json.loads(opened(key, seq, sealed)[1])["kind"] == kind]
        self.count.check(lost, f"there are entries of kind {kind}")
        for sealed in lost:
            at = content.index(sealed[:60]) + 40
            content[at:at + 3] = bytes(255 - byte for byte in content[at:at + 3])
        self.put(content)

    def lose_keys(self):
        """Both copies of the journal's key, each by one wrong byte."""
        folder = os.path.dirname(self.journal())
        for name in os.listdir(folder):
            if ".key-" in name:
                with open(os.path.join(folder, name), "r+b") as file:
                    file.seek(40)
                    file.write(b"#")

    def goes_on_with_paper(self):
        """Before the drink, with nothing but the plan to read."""
        self.open()
        self.on("on-paper")
        said = self.words_on_leaves()
        self.count.check("Do not drink it" in said, f"nobody drinks by it: {said!r}")
        self.count.check("Tuesday 07:30" in said, f"the planned times are told: {said!r}")
        self.window.close()



def one_byte_wrong(count, display):
    p = Damaged(count, display)
    p.open_and_go_on()
    p.begin()
    p.window.close()
    whole, kept = p.data, p.data + "-whole"
    shutil.copytree(whole, kept)
    any_ = random.Random(SEED)
    seen = []
    for _ in range(FLIPS):
        shutil.rmtree(whole)
        shutil.copytree(kept, whole)
        content = bytearray(p.bytes())
        at, by = any_.randrange(len(content)), any_.randrange(1, 256)
        content[at] ^= by
        p.put(content)
        p.open()
        shown = p.window.wait("a page", lambda o: o["settled"] and o["screen"])["screen"]
        seen.append(shown)
        p.look(p.window, shown)
        if shown in ("salvaged", "return"):
            p.window.press("go-on")
            shown = p.window.screen("wait")
        words = p.words_on_leaves()
        count.check("07:55" in words, f"byte {at} by {by}: tube 2 is due at 07:55: {words!r}")
        p.window.close()
    count.check("salvaged" in seen, f"some of these bytes are in use: {seen}")


def goes_on_after_the_drink(count, display):
    p = Damaged(count, display)
    p.open_and_go_on()
    p.begin()
    p.window.close()
    p.lose("symptoms")
    p.open()
    p.on("salvaged")
    p.says("Your test goes on", "the page says that the test goes on")
    said = p.words_on_leaves()
    count.check("Tuesday 07:55" in said, f"and when the next tube is due: {said!r}")
    count.check("Maren Oakhollow" in said, f"and whose test it is: {said!r}")
    p.window.press("go-on")
    p.patient.walk("wait")
    p.to_due()
    p.blow()
    p.window.close()


def asks_again_before_the_drink(count, display):
    p = Damaged(count, display)
    p.lose("caution")
    p.open()
    p.on("salvaged")
    said = p.words_on_leaves()
    count.check("Keep the test sugar closed" in said, f"the sugar stays closed: {said!r}")
    p.window.press("go-on")
    p.on("who-check")
    p.window.press("right")
    p.on("red-flags")
    p.patient.walk("gate-question")
    p.look(p.window, "gate-question")
    p.patient.walk("gate-told-again")
    p.look(p.window, "gate-told-again")
    p.window.press("nothing-more")
    p.patient.walk("gate-check", "gate-check-short")
    p.window.close()


def nothing_can_be_read(count, display):
    p = Damaged(count, display)
    content = p.bytes()
    p.put(b"\x5a" * len(content))
    p.goes_on_with_paper()
    folder = os.path.dirname(p.journal())
    for name in os.listdir(folder):
        if name.endswith(".plan"):
            os.remove(os.path.join(folder, name))
    p.open()
    p.on("on-paper")
    said = p.words_on_leaves()
    count.check("01632 960 417" in said, f"whom to call is told: {said!r}")
    p.window.press("begin-anew")
    p.window.screen("agree")
    p.window.close()


def the_key_is_lost(count, display):
    p = Damaged(count, display)
    p.lose_keys()
    p.goes_on_with_paper()


def nothing_hides_or_hangs(count, display):
    p = Damaged(count, display)
    folder = os.path.dirname(p.journal())
    os.mkfifo(os.path.join(folder, "a-pipe.journal"))
    os.mkdir(os.path.join(folder, "a-folder.journal"))
    with open(os.path.join(folder, "a-list.journal"), "w", encoding="utf-8") as file:
        file.write("bread, milk")
    os.symlink("/dev/zero", os.path.join(folder, "an-end.journal"))
    p.open()
    p.on("return")
    p.says("Maren Oakhollow", "the running test is opened")
    p.window.close()


SALVAGE = [one_byte_wrong, goes_on_after_the_drink, asks_again_before_the_drink,
           nothing_can_be_read, the_key_is_lost, nothing_hides_or_hangs]


if __name__ == "__main__":
    sys.exit(run_suite("salvage", "damaged records", [to_tube_1], SALVAGE))
