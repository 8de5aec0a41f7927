"""One mutant tried: put into a copy of the tree, built, and held against the tests.

The copy is kept (build/mutants/tree), so that only what changed is built again; the checkout itself
is never touched. A mutant is caught by the first test that fails, crashes or does not end: unit
tests, then property tests, then, for the shell, scenarios of the real window (windows.py).
"""
import filecmp
import glob
import hashlib
import os
import re
import resource
import shutil
import subprocess
import sys
import time
from typing import NamedTuple
from xml.sax.saxutils import unescape

from windows import Windows

LEFT_BEHIND = {"build", "node_modules", "__pycache__", ".git"}
TARGETS = ["qb_tests", "qb_property"]
PROGRAMS = ["quarterbreath", "quarterbreath-lab", "qb_shifted_clocks"]
# A mutant may count or allocate for ever.
MOST_MEMORY = 6 << 30
LEAST_LIMIT_S, TIMES_AS_LONG = 120, 6
BUILD_LIMIT_S = 3600
WHOLE_RUN_LIMIT_S = 1800  # where it was not measured
# As the ordinary tier: one seed, so that the same mutant has the same fate twice.
SEED, CASES = "20270328", "100"


class NotBuilt(Exception):
    """The compiler or the linker refused, or the test fails anyway; says where."""


class Fault(NamedTuple):
    """The test in which a run ended, "" before any, and how if not by itself."""
    test: str
    ending: str

    def words(self):
        return (self.test or "before any test") + self.ending


def copy_changed(source, target):
    """Makes `target` what `source` is, leaving alone what is the same: that is not rebuilt."""
    os.makedirs(target, exist_ok=True)
    names = set(os.listdir(source)) - LEFT_BEHIND
    for name in set(os.listdir(target)) - names - LEFT_BEHIND:
        path = os.path.join(target, name)
        if os.path.isdir(path) and not os.path.islink(path):
            shutil.rmtree(path)
        else:
            os.remove(path)
    for name in names:
        a, b = os.path.join(source, name), os.path.join(target, name)
        if os.path.isdir(a):
            copy_changed(a, b)
        elif not os.path.exists(b) or not filecmp.cmp(a, b, shallow=False):
            shutil.copy(a, b)


class Copy:
    """The tree mutants are put into, and its programs."""

    def __init__(self, root, folder):
        self.tree = os.path.join(folder, "tree")
        self.work = os.path.join(folder, "work")
        self.build = os.path.join(self.tree, "build/release")
        copy_changed(root, self.tree)
        os.makedirs(self.work, exist_ok=True)
        self.limits, self.digests = {}, {}
        self.passed = {}  # by program and test, whether it passes without a mutant
        self.without = os.path.join(folder, "without")  # the programs without any mutant
        self.env = dict(os.environ, CCACHE_BASEDIR=self.tree, QB_SEED=SEED, QB_DEEP="0",
                        CCACHE_SLOPPINESS="pch_defines,time_macros", QB_ROOT=self.tree,
                        QB_BUILD=self.build, QB_WORK=os.path.join(self.work, "window"),
                        RC_PARAMS=f"seed={SEED} max_success={CASES}")
        self.windows = Windows(self.tree, self.env, self.without)
        # Always asked again: a file that came or went since the copy was made is seen only then.
        self.run(["cmake", "-S", self.tree, "-B", self.build, "-G", "Ninja",
                  "-DCMAKE_BUILD_TYPE=Release", "-DQB_TESTS=ON"], BUILD_LIMIT_S, "configured")

    def run(self, words, limit, what):
        ran = subprocess.run(words, env=self.env, cwd=self.work, text=True, errors="replace",
                             stdout=subprocess.PIPE, stderr=subprocess.STDOUT, timeout=limit)
        if ran.returncode:
            raise NotBuilt(f"not {what}: " + first_error(ran.stdout))

    def make(self, targets):
        jobs = os.environ.get("QB_JOBS", str(os.cpu_count()))
        self.run(["ninja", "-C", self.build, "-j", jobs, *targets], BUILD_LIMIT_S, "built")

    def path(self, site):
        return os.path.join(self.tree, site.path)

    def read(self, site):
        with open(self.path(site), encoding="utf-8") as file:
            return file.read()

    def write(self, site, text):
        with open(self.path(site), "w", encoding="utf-8") as file:
            file.write(text)

    # ---- tests ----------------------------------------------------------------------------------

    def ready(self):
        """Builds the test programs without any mutant and keeps them. No whole run: a test that
        catches a mutant is held against them (`passes_without`)."""
        self.make(TARGETS)
        os.makedirs(self.without, exist_ok=True)
        for program in TARGETS:
            shutil.copy(os.path.join(self.build, program), self.without)
            self.digests[program] = self.digest(program)
            self.limits[program] = WHOLE_RUN_LIMIT_S

    def plain(self):
        """Runs the tests without any mutant: they must pass, and say how long they take. Answers
        what failed."""
        self.ready()
        self.make(PROGRAMS)
        for program in PROGRAMS:
            shutil.copy(os.path.join(self.build, program), self.without)
        for program in TARGETS:
            began = time.monotonic()
            fault = self.first_failure(program)
            if fault:
                return f"without a mutant {program} fails: {fault.words()}"
            took = time.monotonic() - began
            self.limits[program] = LEAST_LIMIT_S + TIMES_AS_LONG * took
            tell(f"without a mutant {program} passes in {took:.0f} s")
        return ""

    def passes_without(self, program, test):
        """Whether that one test passes without the mutant; each is asked once."""
        if (program, test) not in self.passed:
            words = [os.path.join(self.without, program), exactly(test)]
            ran = subprocess.run(words, env=self.env, cwd=self.work, stdout=subprocess.PIPE,
                                 stderr=subprocess.STDOUT, text=True, errors="replace",
                                 timeout=WHOLE_RUN_LIMIT_S)
            self.passed[program, test] = ran.returncode == 0 and "No test" not in ran.stdout
        return self.passed[program, test]

    def first_failure(self, program, only=()):
        """The first test that fails; nothing when all pass. `only` are words that choose tests."""
        report = os.path.join(self.work, program + ".xml")
        words = [os.path.join(self.build, program), "-r", "xml", "--abort", "--out", report,
                 *only]
        if os.path.exists(report):
            os.remove(report)
        try:
            ran = subprocess.run(words, env=self.env, cwd=self.work, preexec_fn=bounded,
                                 stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                                 timeout=self.limits.get(program))
        except subprocess.TimeoutExpired:
            return Fault(last_test(report), " (did not end)")
        if ran.returncode == 0:
            return None
        ending = f" (ended by signal {-ran.returncode})" if ran.returncode < 0 else ""
        return Fault(last_test(report), ending)

    def digest(self, program):
        with open(os.path.join(self.build, program), "rb") as file:
            return hashlib.sha256(file.read()).hexdigest()

    def rounds(self, site):
        """What is run: program, words that choose its tests, name. First the tests that a named
        mutant names; then those of its own folder, which see most mutants."""
        folder = os.path.basename(os.path.dirname(site.path))
        near = glob.glob(os.path.join(self.tree, "tests/unit", folder, "*.cpp"))
        own = sorted(os.path.basename(path)[:-len(".cpp")] for path in near)
        likely = [exactly(test) for test in getattr(site, "first", ())]
        first = [("qb_tests", [",".join(likely)], "unit")] if likely else []
        if own:  # a test is tagged by its file then
            first.append(("qb_tests", ["-#", ",".join(f"[#{name}]" for name in own)], "unit"))
        return [*first, ("qb_tests", (), "unit"), ("qb_property", (), "property")]

    def try_mutant(self, site, scenarios):
        """What caught it, as `unit: TEST`; nothing when it survived. May raise NotBuilt. Each
        program is linked only once the one before it has seen nothing; one that the mutant is not
        in cannot see it."""
        text = self.read(site)
        try:
            self.write(site, site.applied_to(text))
            for program, only, name in self.rounds(site):
                self.make([program])
                if self.digest(program) == self.digests[program]:
                    continue
                fault = self.first_failure(program, only)
                if fault and fault.test and not self.passes_without(program, fault.test):
                    raise NotBuilt(f"without the mutant too {fault.test!r} fails")
                if fault:
                    return f"{name}: {fault.words()}"
            if not scenarios:
                return ""
            self.make(PROGRAMS)
            return self.windows.first_failure(scenarios, tell)
        finally:
            self.write(site, text)


def exactly(test):
    """The word that chooses that one test."""
    return re.sub(r"([\\,*\[\]\"~])", r"\\\1", test)


def bounded():
    resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def last_test(report):
    """The test that was running when the report ended: with --abort, the one that failed."""
    if not os.path.exists(report):
        return ""
    with open(report, encoding="utf-8", errors="replace") as file:
        names = re.findall(r'<TestCase name="([^"]*)"', file.read())
    return unescape(names[-1], {"&quot;": '"'}) if names else ""


def first_error(output):
    wanted = r": (?:fatal )?error: |undefined reference|^CMake Error"
    lines = [line for line in output.splitlines() if re.search(wanted, line)]
    return (lines or output.splitlines() or ["no word"])[0].strip()[-200:]


def tell(words):
    """Progress, on standard error: a whole run takes an hour."""
    print(words, file=sys.stderr, flush=True)
