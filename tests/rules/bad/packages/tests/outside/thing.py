"""Commands, modules and a library of nobody's, in every way in which they are seen."""
import ctypes
import subprocess
import sys

import gadget
from gadgets.more import thing

LIBRARY = ctypes.CDLL("libgadget.so.1")


def told(*words):
    return subprocess.run(words, check=True)


def use(path):
    subprocess.run(["gadget-tool", path], check=True)
    subprocess.run(["env", "A=1", "gadget-in", path], check=True)
    subprocess.run([sys.executable, "-m", "gadgetmock"], check=True)
    told("gadget-show", path)
    return ("cat", "--number", path), ("sort", path), gadget, thing, LIBRARY
