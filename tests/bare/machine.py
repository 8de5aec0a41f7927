"""What an empty Debian takes over from the machine it is built on, read when it is built: where
packages come from, by which proxy, where npm fetches, whom to trust, how names are looked up.
Nothing of it is written in the repository.
"""
import glob
import os
import re
import shutil
import subprocess

CODENAME = "bookworm"
TRUSTED = "/etc/ssl/certs/ca-certificates.crt"
OWN_TRUSTED = "/usr/local/share/ca-certificates"
NAMES = ["/etc/resolv.conf", "/etc/hosts"]
PROXIES = ["http_proxy", "https_proxy", "ftp_proxy", "no_proxy"]


def told(*words):
    return subprocess.run(words, capture_output=True, text=True, check=True).stdout


def sources():
    """Debian's own sources of this release, as one-line entries."""
    wanted = "$(REPO_URI) $(RELEASE) $(COMPONENT) $(ORIGIN)"
    found = set()
    for line in told("apt-get", "indextargets", "--format", wanted,
                     "Created-By: Packages").splitlines():
        place, release, component, *origin = line.split()
        # Of an index that was never fetched, the origin is not known.
        if release.startswith(CODENAME) and origin in ([], ["Debian"], ["$(ORIGIN)"]):
            found.add(f"deb {place} {release} {component}")
    return sorted(found)


def apt_settings():
    """How apt comes through to them, as lines of a configuration file."""
    dump = told("apt-config", "dump", "--format", '%f "%v";%n', "Acquire")
    return [line for line in dump.splitlines()
            if re.match(r'Acquire::https?::(Proxy|Verify-\w+|CaInfo|No-Cache)\S* ".+";', line)]


def environment():
    """What a person's shell would hold there for programs that fetch something."""
    out = {name: os.environ[name] for lower in PROXIES for name in (lower, lower.upper())
           if name in os.environ}
    if shutil.which("npm"):
        asked = subprocess.run(["npm", "config", "get", "registry"], capture_output=True,
                               text=True, check=False, cwd="/")
        if asked.returncode == 0:
            out["npm_config_registry"] = asked.stdout.strip()
    return out


def files():
    """(file here, its path there) of all that is copied as it is."""
    copied = [TRUSTED, *NAMES, *sorted(glob.glob(OWN_TRUSTED + "/*.crt"))]
    return [(os.path.realpath(path), path) for path in copied if os.path.isfile(path)]
