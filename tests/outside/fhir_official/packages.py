"""The node packages of this folder, unpacked into build/node-deep when their list has changed.

They are a hundred megabytes, so only the suite that reads with them fetches them.
"""
import hashlib
import os
import shutil
import subprocess

HERE = os.path.dirname(os.path.abspath(__file__))
TRUSTED = "/etc/ssl/certs/ca-certificates.crt"


def installed(root, build):
    """The folder that holds node_modules. Ends the suite if npm cannot."""
    folder = os.path.join(os.path.dirname(build), "node-deep")
    mark = os.path.join(folder, ".installed")
    lists = [os.path.join(HERE, "package.json"), os.path.join(HERE, "package-lock.json"),
             os.path.join(root, ".npmrc")]
    digest = hashlib.sha256()
    for path in lists:
        with open(path, "rb") as file:
            digest.update(file.read())
    if os.path.exists(mark):
        with open(mark, encoding="ascii") as file:
            if file.read() == digest.hexdigest():
                return folder
    shutil.rmtree(folder, ignore_errors=True)
    os.makedirs(folder)
    for path in lists:
        shutil.copy(path, folder)
    fetch(folder)
    with open(mark, "w", encoding="ascii") as file:
        file.write(digest.hexdigest())
    return folder


def fetch(folder):
    """What this machine trusts, npm trusts as well: node has a list of its own."""
    environment = dict(os.environ)
    if os.path.exists(TRUSTED):
        environment.setdefault("NODE_EXTRA_CA_CERTS", TRUSTED)
    ran = subprocess.run(["npm", "ci", "--ignore-scripts", "--no-progress"], cwd=folder,
                         env=environment, capture_output=True, text=True, check=False)
    if ran.returncode != 0:
        said = [line for line in ran.stderr.splitlines() if " error " in line.lower()]
        raise SystemExit(f"FAIL npm could not install: {(said or ['nothing said'])[0][:200]}")
