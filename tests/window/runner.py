"""Runs scenarios beside one another, each on a display of its own, and counts.

A scenario that cannot be carried through is one failure with its reason, and ends no other.
"""
import multiprocessing
import subprocess
import traceback

from checks import Count
from driver import Display, Stuck


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
