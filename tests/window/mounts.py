"""Mounts of a scenario's own, in a mount namespace that ends with the program it is made for.

Not every machine grants one: in most containers, and below a chroot, the system refuses. What a
scenario needs stands above it as `@mounts.needed(...)`; the runner tries it once and leaves the
scenario out with the system's reason.
"""
import functools
import subprocess

OWN = ("unshare", "-Urm", "--propagation", "private")


def needed(*probe):
    """`probe` is a command that succeeds in mounts of one's own where the scenario can run."""
    def mark(scenario):
        scenario.probe = probe
        return scenario
    return mark


@functools.lru_cache(maxsize=None)
def refusal(probe):
    """Why the machine does not grant it; None where it does."""
    tried = subprocess.run([*OWN, *probe], capture_output=True, text=True, check=False)
    if tried.returncode == 0:
        return None
    said = " ".join(tried.stderr.split())[-100:]
    return f"no mounts of its own: {said or f'status {tried.returncode}'}"


def granted(scenarios):
    """Those that can run here; the others are told on a line each."""
    can = []
    for one in scenarios:
        why = refusal(one.probe) if hasattr(one, "probe") else None
        if why is None:
            can.append(one)
        else:
            print(f"LEFT OUT window: {one.__name__} ({why})", flush=True)
    return can
