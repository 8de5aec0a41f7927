"""What the benches of whole programs share: a run's processor time and peak memory, and the score.

Seconds of the processor, not of the wall: other work on the machine is no part of them.
"""
import resource
import subprocess
import time


def peak_mib(pid):
    """The most it has held so far; nothing once it has ended. Counted since it was started anew,
    which what the system says of an ended child is not: that begins with its parent's memory."""
    try:
        with open(f"/proc/{pid}/status", encoding="ascii") as file:
            found = [line for line in file if line.startswith("VmHWM:")]
    except OSError:
        return 0
    return int(found[0].split()[1]) / 1024 if found else 0


def used_by_children():
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def run(words, source, target):
    """Processor seconds and peak memory in MiB of one run from file to file, and whether it went
    well."""
    peak, before = 0, used_by_children()
    with open(source, "rb") as given, open(target, "wb") as taken:
        with subprocess.Popen(words, stdin=given, stdout=taken) as child:
            while child.poll() is None:
                peak = max(peak, peak_mib(child.pid))
                time.sleep(0.002)
    return used_by_children() - before, peak, child.returncode == 0


def lines_in(path):
    with open(path, "rb") as file:
        return sum(1 for _ in file)


class Score:
    passed = failed = 0

    def check(self, good, what):
        self.passed += bool(good)
        self.failed += not good
        if not good:
            print(f"FAIL {what}")
        return bool(good)
