"""Scenarios of the real window that a mutant of the shell has to get past.

Which ones is chosen by the file the mutant was drawn from, under the name the kept list has. A
scenario is believed only after it passed without a mutant, and a mutant counts as caught only when
the scenario failed twice: a busy machine must not look like a mistake found. One that left the
window for the unit tests is named and passed over, since those run before.
"""
import glob
import os
import re
import subprocess
import sys

LIMIT_S = 1500
WALKS, DAYS, MISHAPS, HANDS = "run", "run_situations", "run_mishaps", "run_handing_over"
OF_FILE = {
    "attention": {MISHAPS: ["late_and_missed", "scores_that_rise"]},
    "cues": {MISHAPS: ["late_and_missed", "again_in_the_same_tube"]},
    "host": {DAYS: ["all_well", "travel"], MISHAPS: ["killed_everywhere", "disk_full"],
             WALKS: ["practise_with_mishaps", "plan_a_real_test"], HANDS: ["erased", "to_drives"]},
    "host_attention": {WALKS: ["plan_a_real_test"],
                       MISHAPS: ["late_and_missed", "pause_and_end"]},
    "host_codes": {HANDS: ["erased"]},
    "host_disk": {MISHAPS: ["disk_full", "killed_everywhere"]},
    "host_places": {HANDS: ["to_drives", "pulled_out", "erased"], DAYS: ["all_well"]},
    "host_shared": {HANDS: ["kiosk_handed_over", "kiosk_left_behind", "kiosk_left_to_another"]},
    "host_wishes": {MISHAPS: ["disk_full", "pause_and_end", "second_copy_and_second_person"],
                    HANDS: ["erased", "kiosk_handed_over"],
                    WALKS: ["practise_with_mishaps", "plan_a_real_test"]},
    "preview": {DAYS: ["moved_and_called_off", "clock_change_night", "seven_tubes", "ask_first"],
                WALKS: ["plan_a_real_test"]},
    "running_test": {MISHAPS: ["killed_everywhere", "disk_full"],
                     WALKS: ["practise_through_a_kill"]},
    "test_clock": {MISHAPS: ["clocks_set", "restarted_in_1970"],
                   WALKS: ["practise_with_mishaps", "practise_through_a_kill"]},
    "trembling": {HANDS: ["erased", "kiosk_handed_over"], WALKS: ["practise_with_mishaps"]},
}


def scenarios_of(file):
    """For a shell file's kept name: script -> scenarios. Nothing for a file of core."""
    return OF_FILE.get(file.removesuffix(".cpp"), {})


class Windows:
    """The window's scripts in a copy of the tree; `plain` is a folder of unmutated programs."""

    def __init__(self, tree, env, plain):
        self.scripts = os.path.join(tree, "tests/window")
        self.env, self.plain = env, plain
        self.believed = {}

    def first_failure(self, scenarios, say):
        """What failed twice with the mutant and never without it; nothing when it got past."""
        for script, names in scenarios.items():
            names = [name for name in names if self.is_there(script, name, say)]
            names = self.passing_without(script, names, say)
            failed = self.failing(script, names, self.env) if names else {}
            again = self.failing(script, list(failed), self.env) if failed else {}
            for name, why in again.items():
                return f"window: {name}: {why}"
        return ""

    def is_there(self, script, name, say):
        found = os.path.exists(os.path.join(self.scripts, script)) and any(
            re.search(rf"^def {name}\(", read(path), re.M)
            for path in glob.glob(os.path.join(self.scripts, "*.py")))
        if not found:
            say(f"{name} is no scenario of the window any more")
        return found

    def passing_without(self, script, names, say):
        """Those that pass with programs without a mutant; each is asked once."""
        new = [name for name in names if name not in self.believed]
        faults = self.failing(script, new, dict(self.env, QB_BUILD=self.plain)) if new else {}
        for name in new:
            self.believed[name] = name not in faults
            if name in faults:
                say(f"{name} fails here without a mutant and tells nothing: {faults[name]}")
        return [name for name in names if self.believed[name]]

    def failing(self, script, names, env):
        """The scenarios among `names` that fail, each with its first word on it."""
        try:
            ran = subprocess.run([os.path.join(self.scripts, script), *names], env=env, text=True,
                                 stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                                 errors="replace", timeout=LIMIT_S)
        except subprocess.TimeoutExpired:
            return dict.fromkeys(names, "did not end")
        if ran.returncode == 0 and re.search(r": [1-9]\d* passed, 0 failed$", ran.stdout.strip()):
            return {}
        said = re.findall(r"^FAIL (\w+): (.*)$", ran.stdout, re.M)
        failed = {name: why for name, why in reversed(said) if name in names}
        # What all of them begin with may be what fails, or it says nothing at all.
        first = ": ".join(said[0]) if said else ran.stdout[-200:].strip()
        return failed or dict.fromkeys(names, first)


def read(path):
    with open(path, encoding="utf-8") as file:
        return file.read()
