"""The two hours and a quarter in the real window, with everything that can go wrong in them.

A plan for Tuesday 6 April 2027 at 07:30 in London, tube 1 blown at 07:40, so that tube 2 is due at
07:55, tube 3 at 08:10, and so on; the times looked for on the pages are worked out here by hand.
Every page is checked (checks.py) and kept as a picture, to be looked at; what the pages said is
held against the record that is handed over at the end and taken in by the laboratory's program.
"""
import os
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from mishaps_body import BODY  # noqa: E402
from mishaps_device import DEVICE  # noqa: E402
from mishaps_drink import DRINK  # noqa: E402
from mishaps_tubes import TUBES  # noqa: E402
from runner import run_suite  # noqa: E402
from tester import to_tube_1  # noqa: E402

MISHAPS = DEVICE + TUBES + DRINK + BODY


if __name__ == "__main__":
    sys.exit(run_suite("mishaps", "mishaps", [to_tube_1], MISHAPS))
