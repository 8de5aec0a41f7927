"""The clocks a program under test believes in, moved while it runs.

Three numbers in a small file that the preloaded library reads (tests/support/shifted_clocks.cpp):
how far the wall clock and the boot clock are shifted, or, where the third says that they stand,
what they show. Both moved alike is time that passed; the wall clock alone is a clock that somebody
set.
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


def boot_ms():
    return round(time.clock_gettime(time.CLOCK_BOOTTIME) * SECOND)


class Clocks:
    """`env` leads a program to them."""

    def __init__(self, folder, library):
        self.path = os.path.join(folder, "clocks")
        with open(self.path, "wb") as file:
            file.write(struct.pack("qqq", 0, 0, 0))
        with open(self.path, "r+b") as file:
            self.map = mmap.mmap(file.fileno(), 24)
        self.env = {"LD_PRELOAD": library, "QB_SHIFT_FILE": self.path}

    def _read(self):
        return struct.unpack("qqq", self.map[:])

    def _move(self, wall, boot):
        was_wall, was_boot, stand = self._read()
        self.map[:] = struct.pack("qqq", was_wall + wall, was_boot + boot, stand)

    def wall_ms(self):
        wall, _, stand = self._read()
        return wall if stand else round(time.time() * SECOND) + wall

    def come_to(self, civil, zone):
        """Time passes until then."""
        self.let_pass((moment(civil, zone) - self.wall_ms()) / SECOND)

    def run(self):
        """Whether they run; else they stand."""
        return not self._read()[2]

    def let_pass(self, seconds):
        self._move(round(seconds * SECOND), round(seconds * SECOND))

    def stand_at(self, civil, zone):
        """Running clocks come to that moment and stay there, however slow the machine is. The
        program hears a press only while its boot clock runs, so this comes after the presses."""
        until = moment(civil, zone)
        passes = until - self.wall_ms()
        _, shift, _ = self._read()
        if passes < 0:
            raise ValueError(f"it is already {-passes} ms later than {civil}")
        self.map[:] = struct.pack("qqq", until, boot_ms() + shift + passes, 1)

    def set_wall(self, seconds):
        """Somebody sets the clock: no time passes."""
        self._move(round(seconds * SECOND), 0)

    def begin_boot(self, off_s, started_s=40):
        """The machine was off and has been running for `started_s`; its clock kept going."""
        boot = self._read()[1]
        self._move(round(off_s * SECOND), round(started_s * SECOND) - boot_ms() - boot)
