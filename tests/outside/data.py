"""Data from outside the project: where a package or a file is missing its checks skip, and where it is demanded they fail."""

from __future__ import annotations

import importlib
import os
import shutil
from pathlib import Path
from typing import Any, NoReturn

import pytest

DEMANDED = bool(os.environ.get("TWAYBLADE_OUTSIDE"))
"""Set where nothing may be missing: by `.ci/run`, once all is installed."""
NODE_MODULES = Path(os.environ.get("TWAYBLADE_NODE_MODULES") or Path(__file__).parent.parent / "browser" / "node_modules")
"""Where npm put its packages."""


def package(module: str, extra: str = "outside") -> Any:
    """A module of an extra."""
    try:
        return importlib.import_module(module)
    except ImportError:
        _missing(f"{module} is part of the extra `{extra}`")


def system_file(path: str, of: str) -> Path:
    """A file of a Debian package."""
    return Path(path) if Path(path).exists() else _missing(f"{path} is part of Debian's {of}")


def program(name: str, of: str) -> str:
    """A program of a Debian package."""
    return shutil.which(name) or _missing(f"the program {name} is part of Debian's {of}")


def npm_file(path: str) -> Path:
    """A file of an npm package that `tests/browser/package.json` names, below `node_modules`."""
    file = NODE_MODULES / path
    return file if file.exists() else _missing(f"{file} comes with `npm install --prefix tests/browser`")


def _missing(what: str) -> NoReturn:
    if DEMANDED:
        pytest.fail(f"{what}, and is missing")
    pytest.skip(f"{what}, and is not installed")
