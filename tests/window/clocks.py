"""The clocks a program under test believes in, moved while it runs.

Two numbers in a small file that the preloaded library reads (tests/support/shifted_clocks.cpp): how
far the wall clock and the boot clock are shifted. Both moved alike is time that passed; the wall
clock alone is a clock that somebody set.
"""
import mmap
import os
import struct
import time
from datetime import datetime, timezone
from zoneinfo import ZoneInfo

SECOND = 1000
EPOCH = datetime(1970, 1, 1, tzinfo=timezone.utc)


def moment(civil, zone):
    """Milliseconds since 1970 of "2027-04-06 07:30" in that zone."""
    at = datetime.fromisoformat(civil).replace(tzinfo=ZoneInfo(zone))
    return round((at - EPOCH).total_seconds() * SECOND)


class Clocks:
    """`env` leads a program to them."""

    def __init__(self, folder, library):
        self.path = os.path.join(folder, "clocks")
        with open(self.path, "wb") as file:
            file.write(struct.pack("qq", 0, 0))
        with open(self.path, "r+b") as file:
            self.map = mmap.mmap(file.fileno(), 16)
        self.env = {"LD_PRELOAD": library, "QB_SHIFT_FILE": self.path}

    def _move(self, wall_ms, boot_ms):
        wall, boot = struct.unpack("qq", self.map[:])
        self.map[:] = struct.pack("qq", wall + wall_ms, boot + boot_ms)

    def wall_ms(self):
        return round(time.time() * SECOND) + struct.unpack("qq", self.map[:])[0]

    def come_to(self, civil, zone):
        """Time passes until then."""
        self.let_pass((moment(civil, zone) - self.wall_ms()) / SECOND)

    def let_pass(self, seconds):
        self._move(round(seconds * SECOND), round(seconds * SECOND))

    def set_wall(self, seconds):
        """Somebody sets the clock: no time passes."""
        self._move(round(seconds * SECOND), 0)

    def begin_boot(self, off_s, started_s=40):
        """The machine was off and has been running for `started_s`; its clock kept going."""
        ran = round(time.clock_gettime(time.CLOCK_BOOTTIME) * SECOND)
        boot = struct.unpack("qq", self.map[:])[1]
        self._move(round(off_s * SECOND), round(started_s * SECOND) - ran - boot)
