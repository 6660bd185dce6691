"""The counter runs as a script; its tests find it and its parts the same way."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
