"""Show that everything the wheel needs exists ready-made for Windows and macOS; nothing is run there.

python tests/wheel/resolve.py    prints the exit status for both; ends 0 when both do
"""

import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).parents[2]
MACHINES = {"Windows x64": "win_amd64", "macOS arm64": "macosx_14_0_arm64"}


def build(folder: str) -> Path:
    """Build the wheel of this checkout."""
    command = [sys.executable, "-m", "build", "--wheel", "--outdir", folder, str(ROOT)]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    (wheel,) = Path(folder).glob("*.whl")
    return wheel


def resolve(wheel: Path, platform: str, folder: str) -> int:
    """Let pip look for ready-made files only, for another machine; nothing is installed."""
    command = [sys.executable, "-m", "pip", "install", "--dry-run", "--quiet", "--only-binary=:all:"]
    command += ["--python-version", "3.11", "--platform", platform, "--target", folder, str(wheel)]
    return subprocess.run(command, check=False).returncode


def main() -> int:
    with tempfile.TemporaryDirectory() as folder:
        wheel = build(folder)
        ends = {name: resolve(wheel, platform, folder) for name, platform in MACHINES.items()}
    for name, end in ends.items():
        print(f"{name}: {end}")
    return max(ends.values())


if __name__ == "__main__":
    sys.exit(main())
