"""Pages, drawings and style are what their standards say they are.

Outside check: the Nu HTML checker, which holds HTML to the living standard of WHATWG and SVG to the schema of SVG 1.1.
"""

from __future__ import annotations

import json
import subprocess
from pathlib import Path
from typing import Any

from tests.outside import data


def checked(*where: Path) -> list[str]:
    """The errors that the checker finds in files or below folders: file, line, message."""
    jar, java = data.npm_file("vnu-jar/build/dist/vnu.jar"), data.program("java", of="default-jre-headless")
    command = [java, "-jar", jar, "--skip-non-html", "--also-check-svg", "--also-check-css", "--exit-zero-always", "--format", "json", *where]
    done = subprocess.run(command, capture_output=True, text=True, encoding="utf-8", check=True)
    messages: list[dict[str, Any]] = json.loads(done.stderr)["messages"]
    return [f"{Path(m['url']).name}:{m.get('lastLine')} {m['message']}" for m in messages if m["type"] != "info"]


def test_every_page_and_drawing_is_valid(demo_site: Path) -> None:
    assert checked(demo_site) == []


def test_what_is_not_valid_is_found(tmp_path: Path) -> None:
    """So that the checker's silence means something: it looks at each kind of file."""
    (tmp_path / "page.html").write_text("<!DOCTYPE html><html lang=en><title>x</title><a href=x><a href=y>y</a></a>", encoding="utf-8")
    (tmp_path / "drawing.svg").write_text('<svg xmlns="http://www.w3.org/2000/svg"><circle radius="3"/></svg>', encoding="utf-8")
    (tmp_path / "look.css").write_text("p { colour: red }", encoding="utf-8")
    assert {fault.split(":")[0] for fault in checked(tmp_path)} == {"page.html", "drawing.svg", "look.css"}
