"""Write the stored assessments of the examples again, on purpose, and say what changed.

make golden                                      writes tests/golden/assessments/
python tests/golden/rewrite.py --into FOLDER     writes somewhere else, to look at them first
"""

import argparse
from pathlib import Path

from stored import STORED, write

MOST, LONGEST = 8, 200
"""Lines that are printed for one example, and letters of each."""


def main() -> None:
    """Write them and print the differences."""
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--into", type=Path, default=STORED, metavar="FOLDER")
    for name, found in write(options.parse_args().into).items():
        print(f"{name}: {'as before' if not found else f'differences: {len(found)}'}")
        for line in found[:MOST]:
            print(f"  {line[:LONGEST]}")
        if len(found) > MOST:
            print(f"  ... and {len(found) - MOST} more")


if __name__ == "__main__":
    main()
