"""Put the page's one script into the wheel: it comes out of a build requirement, nothing is copied into the repository."""

import importlib.util
import shutil
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

SCRIPT = "static/django_htmx/htmx-2.min.js"
TARGET = "src/firedeck/web/static/htmx.min.js"


class PageScript(BuildHookInterface[Any]):
    """Copy the script beside the page's own files before the wheel is packed."""

    PLUGIN_NAME = "custom"

    def initialize(self, _version: str, _build_data: dict[str, Any]) -> None:
        """Find the script in the build environment and copy it."""
        package = importlib.util.find_spec("django_htmx")
        if package is None or package.origin is None:
            raise RuntimeError("the build requirement django-htmx is not there")
        source = Path(package.origin).parent / SCRIPT
        target = Path(self.root) / TARGET
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(source, target)
