"""Runs scenarios beside one another, each on a display of its own, and counts.

A scenario that cannot be carried through is one failure with its reason, and ends no other.
"""
import glob
import multiprocessing
import os
import shutil
import subprocess
import sys
import traceback

import mounts
from checks import Count
from driver import Display, Stuck, fresh
from person import ASSETS, SHIPPED, WORK

FOR_TRYING = '"for_trying": true'


def run_one(scenario):
    count = Count(scenario.__name__)
    try:
        with Display() as display:
            scenario(count, display)
    except (Stuck, subprocess.SubprocessError, OSError, KeyError, ValueError):
        traceback.print_exc()
        count.check(False, "it could not be carried through")
    return count.passed, count.failed


def run_all(scenarios, at_once):
    """Passed and failed of all of them."""
    if not scenarios:
        return 0, 0
    with multiprocessing.Pool(at_once) as pool:
        results = pool.map(run_one, scenarios, chunksize=1)
    return tuple(sum(r[i] for r in results) for i in (0, 1))


def lay_out_assets(trying):
    """The shipped files. Their laboratories are invented and marked so on every page; without the
    mark they stand for one that exists, with whom a real test is lived through."""
    shutil.copytree(SHIPPED, ASSETS)
    for path in glob.glob(os.path.join(ASSETS, "laboratories", "*.json")):
        with open(path, encoding="utf-8") as file:
            text = file.read()
        if FOR_TRYING not in text:
            raise ValueError(f"{path} is not marked for trying")
        with open(path, "w", encoding="utf-8") as file:
            file.write(text if trying else text.replace(FOR_TRYING, '"for_trying": false'))


def run_suite(name, what, before, scenarios, trying=False):
    """A suite: `before` makes what the scenarios begin from; then all of them that the machine lets
    run, or those that are named on the command line. `trying`: with the laboratories as they are
    shipped. Answers the exit status."""
    fresh(WORK)
    lay_out_assets(trying)
    wanted = mounts.granted(
        one for one in scenarios if len(sys.argv) == 1 or one.__name__ in sys.argv[1:])
    at_once = 3
    first, rest = run_all(before, len(before)), run_all(wanted, at_once)
    passed, failed = first[0] + rest[0], first[1] + rest[1]
    print(f"{len(wanted)} {what}; pictures of their pages: {WORK}")
    print(f"{name}: {passed} passed, {failed} failed")
    return 1 if failed else 0
