"""Publishing: the new site is made beside the old one and takes its place in one step."""

from __future__ import annotations

import ctypes
import os
import shutil
import socket
import subprocess
import sys
import tempfile
import time
from pathlib import Path

MARK = '<meta name="generator" content="Twayblade">'
"""Stands in every page of the theme: only a site that bears it may be replaced."""


class PublishError(RuntimeError):
    """The site could not be made or put in place; says why. The old site is as it was."""


def publish(folder: Path, to: Path | None = None) -> Path:
    """Make the site of a workspace and put it at `to` (its folder `site` if not given). Raises PublishError."""
    target = (to or folder / "site").resolve()
    config = folder / "mkdocs.yml"
    if not config.is_file():
        raise PublishError(f"{config} is missing; a workspace has one")
    _refuse_unless_ours(target, folder.resolve())
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        _clear_leftovers(target)
        with tempfile.TemporaryDirectory(prefix=f".{target.name}-", dir=target.parent) as beside:
            fresh = Path(beside) / "new"
            # not --quiet: it would drop the warnings that --strict counts
            command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--config-file", str(config), "--site-dir", str(fresh)]
            made = subprocess.run(command, capture_output=True, text=True, check=False)
            if made.returncode:
                said = [line for line in (made.stdout + made.stderr).splitlines() if not line.startswith("INFO")]
                raise PublishError("\n".join(["the site could not be made:", *said]))
            _swap(fresh, target, Path(beside) / "old")
    except OSError as reason:
        raise PublishError(f"the site could not be put at {target}: {reason}") from None
    return target


def _refuse_unless_ours(target: Path, folder: Path) -> None:
    """Only a site, an empty folder or nothing may be replaced; never sources."""
    sources = [folder / "content", *(trail.parent for trail in folder.glob("*/trail.yml"))]
    if target == folder or folder.is_relative_to(target) or any(target.is_relative_to(source) for source in sources):
        raise PublishError(f"{target} holds the workspace itself; choose another folder with --to")
    if target.exists() and not _may_be_replaced(target):
        raise PublishError(f"{target} is there already and is not a site made here; choose another folder with --to, or move it away")


def _may_be_replaced(target: Path) -> bool:
    if not target.is_dir():
        return False
    home = target / "index.html"
    made_here = home.is_file() and MARK in home.read_text(encoding="utf-8", errors="replace")
    return made_here or not any(target.iterdir())


_LEFT_BEHIND = 3600
"""Seconds after which what an interrupted build left beside the site is cleared away."""


def _clear_leftovers(target: Path) -> None:
    for left in target.parent.glob(f".{target.name}-*"):
        if left.is_dir() and (left / "new").is_dir() and time.time() - left.stat().st_mtime > _LEFT_BEHIND:
            shutil.rmtree(left, ignore_errors=True)


def _swap(fresh: Path, target: Path, aside: Path) -> None:
    """Put the new site where the old one was, in one step where the system can; if that fails, the old one goes back."""
    if not target.exists():
        fresh.rename(target)
        return
    if _exchanged(fresh, target):
        return
    target.rename(aside)
    try:
        fresh.rename(target)
    except OSError:
        aside.rename(target)
        raise
    shutil.rmtree(aside, ignore_errors=True)


_HERE, _EXCHANGE = -100, 2
"""AT_FDCWD and RENAME_EXCHANGE of Linux's renameat2(2)."""


def _exchanged(one: Path, two: Path) -> bool:
    """Whether the system could exchange two folders in one step (Linux can)."""
    try:
        rename = ctypes.CDLL(None, use_errno=True).renameat2
    except (AttributeError, OSError, TypeError):
        return False
    return bool(rename(_HERE, os.fsencode(one), _HERE, os.fsencode(two), _EXCHANGE) == 0)


def serve_site(folder: Path, port: int) -> None:
    """Show the site on this machine until stopped, and make it anew when a file changes. Raises PublishError if the port is taken.

    The server takes the place of this process, so that a signal reaches it.
    """
    with socket.socket() as probe:
        probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind(("127.0.0.1", port))
        except OSError as reason:
            raise PublishError(f"port {port} cannot be used: {reason.strerror}; choose another with --port") from None
    address = ["--dev-addr", f"127.0.0.1:{port}"]
    os.execv(sys.executable, [sys.executable, "-m", "mkdocs", "serve", "--livereload", "--config-file", str(folder / "mkdocs.yml"), *address])
