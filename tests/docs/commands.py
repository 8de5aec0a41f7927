"""Runs the commands of a page in a clean copy of the repository, with the built programs in it.

What opens a window or installs packages cannot be run here: of such a command the program, its
options and the suites it names must exist.
"""
import fnmatch
import os
import re
import shlex
import shutil
import subprocess

LEFT_BEHIND = shutil.ignore_patterns(".git", "build", "node_modules", "__pycache__", "bad")
PROGRAMS = ("quarterbreath", "quarterbreath-lab")
PATIENCE_S = 120


class Copy:
    """A copy of the repository with its programs at build/release, and a home of its own."""

    def __init__(self, root, build, work):
        self.folder, home = os.path.join(work, "copy"), os.path.join(work, "home")
        for old in (self.folder, home):
            shutil.rmtree(old, ignore_errors=True)
        shutil.copytree(root, self.folder, ignore=LEFT_BEHIND)
        self.release = os.path.join(self.folder, "build", "release")
        os.makedirs(self.release)
        os.makedirs(home)
        for program in PROGRAMS:
            # A copy, no link: a program finds its assets from where it really stands.
            shutil.copy2(os.path.join(build, program), self.release)
        hidden = re.compile(r"QB_|XDG_|DISPLAY$|WAYLAND_DISPLAY$")
        self.env = {name: value for name, value in os.environ.items() if not hidden.match(name)}
        self.env.update(HOME=home, LC_ALL="C.UTF-8")

    def run(self, command):
        """Exit status and everything said, both outputs in one."""
        ran = subprocess.run(["bash", "-c", command], cwd=self.folder, env=self.env, text=True,
                             stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, check=False,
                             stderr=subprocess.STDOUT, errors="replace", timeout=PATIENCE_S)
        return ran.returncode, ran.stdout

    def help_of(self, program, subcommand=None):
        """What the program says of its options, a subcommand's among them."""
        words = " ".join(shlex.quote(word) for word in (subcommand or "").split())
        return self.run(f"build/release/{program} {words} --help")[1]


def run_block(copy, block, said):
    """Runs or looks over one block of commands; `said` gets what they printed."""
    if set(block.marks) & {"window", "install"}:
        return [(line, fault) for line, command in block.commands()
                for fault in named_faults(copy, command)]
    faults = []
    for line, command in block.commands():
        status, output = copy.run(command)
        said.append(output)
        if status != block.status():
            last = (output.strip().splitlines() or ["nothing said"])[-1]
            faults.append((line, f"status {status}, not {block.status()}: {command}: {last}"))
    return faults


def output_faults(block, said):
    """Each line shown must be printed, in this order; a line of three dots stands for others."""
    lines, at = [line.rstrip() for line in "".join(said).splitlines()], 0
    for number, wanted in enumerate(block.lines, block.line + 1):
        if wanted.strip() == "...":
            continue
        if wanted.rstrip() not in lines[at:]:
            return [(number, f"not printed here: {wanted}")]
        at = lines.index(wanted.rstrip(), at) + 1
    return []


def named_faults(copy, command):
    """What a command names that is not there."""
    words = shlex.split(command)
    while words and re.match(r"[A-Z_]+=", words[0]):
        words.pop(0)
    program, rest = words[0], words[1:]
    path = os.path.join(copy.folder, program)
    if program == "tests/run":
        return tests_run_faults(copy, rest)
    if program == "app/run":
        with open(path, encoding="utf-8") as file:
            known = file.read() + copy.help_of("quarterbreath")
        return option_faults(rest, known)
    name = os.path.basename(program)
    if program.startswith("build/") and name in PROGRAMS:
        group = next((word for word in rest if not word.startswith("-")), None)
        return option_faults(rest, copy.help_of(name) + copy.help_of(name, group))
    if program.startswith("build/"):
        return [] if is_target(copy, name) else [f"{program} is no target of the build"]
    there = os.access(path, os.X_OK) if "/" in program else shutil.which(program)
    return [] if there else [f"there is no {program}"]


def option_faults(words, known):
    options = [word.split("=")[0] for word in words if word.startswith("--")]
    return [f"there is no option {one}" for one in options
            if not re.search(re.escape(one) + r"(?![\w-])", known)]


def tests_run_faults(copy, words):
    with open(os.path.join(copy.folder, "tests/run"), encoding="utf-8") as file:
        faults = option_faults(words, file.read())
    suites = [line.split()[0] for line in copy.run("tests/run --list")[1].splitlines() if line]
    return faults + [f"no suite is named {one}" for one in words
                     if not one.startswith("--") and not fnmatch.filter(suites, one)]


def is_target(copy, name):
    for file in ("CMakeLists.txt", "tests/CMakeLists.txt"):
        with open(os.path.join(copy.folder, file), encoding="utf-8") as text:
            if re.search(rf"\b(?:qb_test_program|add_executable)\({re.escape(name)}\s",
                         text.read()):
                return True
    return False
