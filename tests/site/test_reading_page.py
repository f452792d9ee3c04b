"""The page a script is read aloud from: complete in itself, of use without its script, and as fast as its presenter."""

from __future__ import annotations

import html
import json
import re
import shutil
import subprocess
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from tests.site.built import Built

Site = dict[str, Built]

DAY = date(2026, 6, 7)
ADDRESS = f"trails/demo_trail-{DAY}-read.html"
CHROMIUM = shutil.which("chromium")
needs_browser = pytest.mark.skipif(CHROMIUM is None, reason="chromium is not installed, so no page can be run")


@pytest.fixture(scope="module")
def page(built: Site) -> Built:
    return built[ADDRESS]


def test_it_holds_every_part_of_the_script_with_the_seconds_it_is_filmed(built: Site, demo_scripts: dict[date, dict[str, Any]]) -> None:
    for on, script in demo_scripts.items():
        parts = built[f"trails/demo_trail-{on}-read.html"].main.select(".part")
        told = [part for stop in script["stops"] for part in stop["parts"]]
        assert [" ".join(p.select("p")[1].get_text().split()) for p in parts] == [part["text"] for part in told]
        film = script["clocks"]["film"]["likely"]
        assert sum(int(str(p["data-seconds"])) for p in parts) == pytest.approx(film, abs=len(parts) / 2)
        waits = [n for n, p in enumerate(parts) if p.has_attr("data-waits")]
        assert len(waits) == len(script["stops"])


def test_it_needs_no_other_file(page: Built) -> None:
    assert page.tree.select('link:not([href="data:,"]), [src]') == []
    assert not re.search(r"fetch\(|XMLHttpRequest|import\b|url\(|WebSocket", "".join(s.get_text() for s in page.tree.select("script, style")))


def test_cautions_are_boxed_and_what_is_invented_is_said(page: Built) -> None:
    assert "Invented." in page.words
    for part in page.main.select(".part"):
        assert part.select(".when")
        assert ("care" in (part["class"] or [])) == part.select(".when")[0].get_text().startswith("care")


def test_without_its_script_it_is_plain_text_with_no_button_that_does_nothing(page: Built) -> None:
    assert all(button.find_parent(id="controls") for button in page.tree.select("button"))
    assert page.tree.select("#controls[hidden]")


# A clock of the test's own stands for the browser's, so that no second is waited for and none is lost.
CLOCK = """<script>
var frames = [], clock = 0;
window.requestAnimationFrame = function (f) { frames.push(f); };
function pass(seconds) { for (var n = 0; n < seconds * 20; n += 1) { clock += 50; var f = frames.shift(); if (f) { f(clock); } } }
function press(key) { document.dispatchEvent(new KeyboardEvent("keydown", { key: key, bubbles: true, cancelable: true })); }
function tap(name) { document.querySelector("[data-does=" + name + "]").click(); }
function at() { return window.pageYOffset; }
function tops() { return Array.prototype.map.call(document.querySelectorAll(".part"),
  function (p) { return p.getBoundingClientRect().top + at(); }); }
function now() { var found = document.querySelectorAll(".part"); for (var n = 0; n < found.length; n += 1) {
  if (found[n].classList.contains("now")) { return n; } } return -1; }
</script>"""


def driven(page: Built, does: str, folder: Path, width: int = 1280, height: int = 800) -> dict[str, Any]:
    """What a piece of script finds, that is run in the page in a window of some size; it fills `found`."""
    ending = f"<script>var found = {{}};\n{does}\nparent.postMessage(JSON.stringify(found), '*');</script></body>"
    source = page.source.replace("<body>", f"<body>{CLOCK}", 1).replace("</body>", ending, 1)
    frame = (
        "<!DOCTYPE html><body><script>addEventListener('message', function (e) { document.body.setAttribute('data-found', e.data); });</script>"
        f'<iframe style="width:{width}px;height:{height}px" srcdoc="{html.escape(source)}"></iframe></body>'
    )
    (folder / "frame.html").write_text(frame, encoding="utf-8")
    assert CHROMIUM
    command = [CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu", f"--user-data-dir={folder / 'profile'}", "--window-size=1400,900"]
    done = subprocess.run(
        [*command, "--virtual-time-budget=5000", "--dump-dom", (folder / "frame.html").as_uri()],
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=True,
    )
    match = re.search(r'<body data-found="([^"]*)"', done.stdout)
    assert match, done.stderr[-2000:]
    found: dict[str, Any] = json.loads(html.unescape(match[1]))
    return found


@pytest.mark.browser
@needs_browser
@pytest.mark.parametrize("width", [390, 1280])
def test_it_moves_as_fast_as_the_presenter_and_waits_at_the_next_stop(page: Built, tmp_path: Path, width: int) -> None:
    """A part takes its own seconds from its first line to that of the next, whatever the width of the screen."""
    does = """
    var seconds = Array.prototype.map.call(document.querySelectorAll(".part"), function (p) { return Number(p.getAttribute("data-seconds")); });
    var waits = Array.prototype.map.call(document.querySelectorAll(".part"), function (p) { return p.hasAttribute("data-waits"); });
    found.tops = tops(); found.line = innerHeight / 3; found.seconds = seconds; found.next = waits.indexOf(true, 1);
    tap("run"); pass(0.05); found.first = at();
    pass(seconds[0]); found.second = at();
    pass(800); found.rests = at(); found.running = document.body.classList.contains("running"); found.now = now();
    tap("run"); pass(0.05); pass(seconds[found.next]); found.goes = at();
    found.wide = document.documentElement.scrollWidth; found.inner = innerWidth;
    found.small = Array.prototype.filter.call(document.querySelectorAll("button"), function (b) {
      return b.offsetHeight && (b.offsetHeight < 44 || b.offsetWidth < 44); }).length;
    found.print = parseFloat(getComputedStyle(document.querySelectorAll(".part p")[1]).fontSize);
    """
    found = driven(page, does, tmp_path, width)
    tops, line, following = found["tops"], found["line"], found["next"]
    assert found["first"] == pytest.approx(tops[0] - line, abs=2)
    assert found["second"] == pytest.approx(tops[1] - line, abs=5)
    assert found["rests"] == pytest.approx(tops[following] - line, abs=2)
    assert (found["running"], found["now"]) == (False, following)
    assert found["goes"] == pytest.approx(tops[following + 1] - line, abs=5)
    assert found["wide"] <= found["inner"]
    assert found["small"] == 0  # WCAG 2.2, 2.5.5 (AAA): 44 by 44 CSS pixels
    assert found["print"] >= 24  # large in the sense of WCAG 2.2, 1.4.3: 18 points, which are 24 CSS pixels


@pytest.mark.browser
@needs_browser
def test_keys_and_fingers_do_the_same(page: Built, tmp_path: Path) -> None:
    does = """
    function all() { return [now(), document.body.className, document.documentElement.className, document.getElementById("says").textContent]; }
    var keys = { run: " ", on: "ArrowDown", back: "ArrowUp", faster: "ArrowRight", slower: "ArrowLeft", mirror: "m", dark: "d" };
    var order = ["on", "on", "back", "faster", "faster", "slower", "mirror", "dark", "run"];
    order.forEach(function (name) { press(keys[name]); });
    found.pressed = all(); found.labels = Array.prototype.map.call(document.querySelectorAll("button"), function (b) { return b.textContent; });
    found.transform = getComputedStyle(document.querySelector("main")).transform;
    press("m"); press("d"); press(" "); press("ArrowLeft"); press("ArrowUp"); press("ArrowUp");
    order.forEach(tap); found.tapped = all();
    """
    found = driven(page, does, tmp_path)
    assert found["pressed"] == [0, "mirrored running", "dark", "At 105 % of the presenter's rate"]  # from the top of the page
    assert found["tapped"] == [1, *found["pressed"][1:]]  # from the first part
    assert found["transform"] == "matrix(-1, 0, 0, 1, 0, 0)"
    assert found["labels"] == ["Stop", "Back", "On", "Slower", "Faster", "Mirror", "Dark"]
