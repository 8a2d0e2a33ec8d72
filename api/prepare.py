"""Make the virtual environment and install what is locked; do nothing when that is done already.

Run by ``api/serve`` and ``tests/run`` with the system's own Python, before anything is installed: standard library
alone, and no syntax that an old Python could not read far enough to be told that it is too old.

usage: prepare.py LOCK_FILE

Exit codes: 0 ready, 3 Python too old, 4 packages could not be installed, 5 no virtual environment could be made.
"""

import fcntl
import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

if sys.version_info < (3, 11):
    sys.stderr.write(
        "gaugerake needs Python 3.11 or newer; this is %d.%d (%s).\n"
        "Name another one with GAUGERAKE_PYTHON=/path/to/python3.\n"
        % (sys.version_info[0], sys.version_info[1], sys.executable)
    )
    sys.exit(3)

ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
PYTHON = VENV / "bin" / "python"
VERSION = str(tuple(sys.version_info[:2]))
PIP = [str(PYTHON), "-m", "pip", "--disable-pip-version-check", "install", "--quiet", "--retries", "2", "--timeout=20"]


def run(*command):
    """The finished process, its words kept."""
    return subprocess.run(command, capture_output=True, text=True)


def give_up(result, code, *words):
    """Say what failed, in its own words and in ours, and leave."""
    sys.stderr.write(result.stdout + result.stderr + "\n".join(words) + "\n")
    sys.exit(code)


def stamp_of(lock):
    """What the environment is made from: Python, the folder, the project's metadata and the lock."""
    digest = hashlib.sha256((VERSION + str(ROOT)).encode())
    for name in ("pyproject.toml", lock):
        digest.update(hashlib.sha256((ROOT / name).read_bytes()).digest())
    return digest.hexdigest()


def usable(stamp_file, stamp):
    """Whether the environment stands and was made from just this."""
    try:
        return stamp_file.read_text() == stamp and os.access(str(PYTHON), os.X_OK)
    except OSError:
        return False


def make_venv():
    """A new environment, unless one with this Python stands already."""
    if PYTHON.exists():
        made = run(str(PYTHON), "-c", "import pip, sys; print(sys.version_info[:2])")
        if made.returncode == 0 and made.stdout.strip() == VERSION:
            return
    shutil.rmtree(str(VENV), ignore_errors=True)
    result = run(sys.executable, "-m", "venv", str(VENV))
    if result.returncode:
        give_up(result, 5, "No virtual environment could be made (on Debian: apt-get install python3-venv).")


def install(lock):
    """What the lock names, each file by its hash; then the package itself, in place."""
    for arguments in (
        ["--require-hashes", "--requirement", str(ROOT / lock)],
        ["--no-deps", "--no-build-isolation", "--no-index", "--editable", str(ROOT)],
    ):
        result = run(*PIP, *arguments)
        if result.returncode:
            give_up(
                result,
                4,
                "The packages of " + lock + " could not be installed: pip's own words stand above.",
                "Is the package registry within reach? Nothing was started; run the same command again then.",
            )
    # once here: where Python is told to write no bytecode, each start would compile the service anew, for a second
    run(str(PYTHON), "-m", "compileall", "-q", str(ROOT / "api" / "gaugerake"))


def main(lock):
    """Bring the environment to what the lock says; one process at a time."""
    stamp = stamp_of(lock)
    stamp_file = VENV / ("prepared-from-" + lock.replace("/", "-"))
    if usable(stamp_file, stamp):
        return
    with (ROOT / "api" / ".preparing").open("w") as lock_file:
        fcntl.flock(lock_file, fcntl.LOCK_EX)
        if usable(stamp_file, stamp):
            return
        sys.stderr.write("Setting up in " + str(VENV) + " (once; a minute or so) ...\n")
        make_venv()
        install(lock)
        stamp_file.write_text(stamp)


if __name__ == "__main__":
    main(sys.argv[1])
