"""The page for an unknown plant: of use without its script; with it, one question at a time, by keyboard and by ear, and a link holds the answers."""

from __future__ import annotations

import html
import json
import re
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
from tests.site.built import Built
from tests.site.test_safety import SOFTENED, asks

from twayblade.knowledge.workspace import Workspace

Site = dict[str, Built]

CHROMIUM = shutil.which("chromium")
needs_browser = pytest.mark.skipif(CHROMIUM is None, reason="chromium is not installed, so no page can be run")
HEMLOCK = (
    "saw=stem-blotches:blotched~flower-cluster:compound-umbel~stem-hairs@lower-stem:hairless~leaflet-outline@stem-leaf:lacy"
    "~bracteole-side:outer-side~leaf-division@basal-leaf:thrice-divided~bract-number:3-6"
)
"""What hemlock shows in June by its profile."""


@pytest.fixture(scope="module")
def page(built: Site) -> Built:
    return built["naming.html"]


def test_without_its_script_it_leads_to_every_key_and_says_what_it_covers(page: Built, demo_workspace: Workspace) -> None:
    keys = {address for address, _ in page.led_to(page.main) if address.startswith("keys/")}
    assert keys == {f"keys/demo_trail-{on}.html" for on in demo_workspace.trails["demo_trail"].trail.dates}
    assert page.tree.select("#without:not([hidden])")
    assert not page.main.select("button")
    listed = demo_workspace.regions["north-west-lowlands"].recorded
    assert f"Covers {len(demo_workspace.taxa)} of the {len(listed)} on the list" in page.words
    for entry in listed:
        if not entry.taxon and entry.hazard.is_harmful:
            assert entry.name in page.words


def test_the_care_of_every_harmful_plant_that_it_may_name_stands_on_it(page: Built, demo_workspace: Workspace) -> None:
    for taxon in demo_workspace.taxa.values():
        if taxon.hazard_class.is_harmful:
            assert taxon.profile.hazard
            assert " ".join(taxon.profile.hazard.text.text.split()) in page.words


def test_the_head_of_every_page_leads_to_it(built: Site) -> None:
    headed = [page for page in built.values() if page.tree.nav]
    assert len(headed) > 40
    assert all(("naming.html", "") in page.led_to(page.tree) for page in headed)


def test_nothing_that_it_may_say_asks_for_a_hand_on_a_plant_or_calls_one_safe(demo_site: Path) -> None:
    tables = (demo_site / "data" / "naming.js").read_text(encoding="utf-8")
    assert asks(tables) == []
    assert SOFTENED.findall(tables) == []


def test_every_drawing_that_it_may_show_is_there(demo_site: Path) -> None:
    shown = set(re.findall(r'"(drawings/[^"]+\.svg)"', (demo_site / "data" / "naming.js").read_text(encoding="utf-8")))
    assert len(shown) > 50
    assert [address for address in shown if not (demo_site / address).is_file()] == []


# -- in a browser -----------------------------------------------------------------------------------------------------
WALK = """
var found = { errors: [] };
addEventListener("error", function (e) { found.errors.push(String(e.message)); });
function see(name) {
  var asked = document.querySelector("#asked"), end = document.querySelector("#end");
  found[name] = { asked: asked && asked.textContent, end: end && end.textContent, focus: document.activeElement.id,
    heard: document.querySelector("#noted").textContent,
    saw: [].map.call(document.querySelectorAll(".saw a"), function (a) { return a.textContent; }),
    answers: [].map.call(document.querySelectorAll(".answers:not(.beside) button"), function (b) { return b.getAttribute("aria-label"); }),
    text: document.querySelector("#naming").innerText, links: [].map.call(document.querySelectorAll("#naming a"), function (a) { return a.href; }),
    small: [].filter.call(document.querySelectorAll("#naming button"), function (b) { return b.offsetHeight < 44 || b.offsetWidth < 44; }).length,
    wide: document.documentElement.scrollWidth > innerWidth };
}
function press(words) { [].filter.call(document.querySelectorAll("#naming button, #naming a"),
  function (b) { return b.textContent === words || b.getAttribute("aria-label") === words; })[0].click(); }
function then(steps) {
  if (!steps.length) { document.body.setAttribute("data-found", JSON.stringify(found)); return; }
  steps[0](); setTimeout(function () { then(steps.slice(1)); }, 60);
}
"""


def walked(folder: Path, site: Path, steps: str, query: str = "?on=2026-06-07", anchor: str = "") -> dict[str, Any]:
    """What a walk through the page finds; steps: functions in JavaScript, each run when the page has followed the one before."""
    page = (site / "naming.html").read_text(encoding="utf-8")
    script = f"<script>{WALK}addEventListener('load', function () {{ then([{steps}]); }});</script></body>"
    (folder / "naming.html").write_text(page.replace("</body>", script), encoding="utf-8")
    for name in ("data", "js"):
        shutil.copytree(site / name, folder / name, dirs_exist_ok=True)
    shutil.copy(site / "look.css", folder)
    assert CHROMIUM
    command = [CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu", f"--user-data-dir={folder / 'profile'}", "--window-size=500,900"]
    address = (folder / "naming.html").as_uri() + query + (f"#{anchor}" if anchor else "")
    done = subprocess.run(
        [*command, "--virtual-time-budget=8000", "--dump-dom", address], capture_output=True, text=True, encoding="utf-8", check=True
    )
    match = re.search(r'<body[^>]* data-found="([^"]*)"', done.stdout)
    assert match, done.stderr[-2000:]
    found: dict[str, Any] = json.loads(html.unescape(match[1]))
    assert found["errors"] == []
    return found


@pytest.mark.browser
@needs_browser
def test_it_asks_one_thing_at_a_time_and_back_changed_and_unsure_answers_are_followed(demo_site: Path, tmp_path: Path) -> None:
    found = walked(
        tmp_path,
        demo_site,
        """
        function () { see("start"); press(found.start.answers[0]); },
        function () { see("second"); press("I can't tell"); },
        function () { see("third"); press("None of these"); },
        function () { see("fourth"); history.back(); },
        function () { see("back"); press(found.second.saw[0]); },
        function () { see("again"); press(found.start.answers[1]); },
        function () { see("changed"); press("Start again"); },
        function () { see("over"); }
        """,
    )
    start, second, third, fourth = (found[name] for name in ("start", "second", "third", "fourth"))
    assert start["asked"].startswith("Look at ")
    assert start["asked"].endswith("…")
    assert start["saw"] == []
    assert second["saw"] == [start["answers"][0]]
    assert second["asked"] != start["asked"]
    assert second["focus"] == "asked", "the next question takes the focus, so that it is read out"
    assert second["heard"] == f"Noted: {start['answers'][0]}"
    assert third["saw"][1].startswith("You could not tell: ")
    assert fourth["saw"][2].startswith("You saw none of what was shown: ")
    assert (found["back"]["asked"], found["back"]["saw"]) == (third["asked"], third["saw"])
    assert (found["again"]["asked"], found["again"]["saw"]) == (start["asked"], third["saw"])
    assert found["changed"]["saw"] == [start["answers"][1], *third["saw"][1:]]
    assert (found["over"]["asked"], found["over"]["saw"]) == (start["asked"], [])
    assert not any(found[name]["small"] or found[name]["wide"] for name in ("start", "second", "third", "fourth")), "WCAG 2.2, 2.5.5 and 1.4.10"


@pytest.mark.browser
@needs_browser
def test_a_link_holds_the_answers_and_the_end_tells_its_doubts_and_its_care(demo_site: Path, demo_workspace: Workspace, tmp_path: Path) -> None:
    found = walked(tmp_path, demo_site, 'function () { see("shared"); }', anchor=f"{HEMLOCK}&stop=yes")["shared"]
    hemlock = demo_workspace.taxa["conium-maculatum"]
    assert found["end"].startswith("What you saw fits hemlock")
    assert len(found["saw"]) == HEMLOCK.count(":")
    assert re.findall(r"Not hemlock if [^.]+\.", found["text"])
    assert hemlock.profile.hazard
    assert " ".join(hemlock.profile.hazard.text.text.split()) in found["text"]
    assert "treat it as harmful all the same" in found["text"]
    assert "It may also be one that is not on this page" in found["text"]
    assert any(link.endswith("taxa/conium-maculatum.html?on=2026-06-07") for link in found["links"]), "the date goes with the reader"
    assert SOFTENED.findall(found["text"]) == []
    assert asks(found["text"]) == []


@pytest.mark.browser
@needs_browser
def test_one_wrong_answer_leads_elsewhere_but_tells_hemlock_and_which_answer_to_look_at_again(demo_site: Path, tmp_path: Path) -> None:
    wrong = HEMLOCK.replace("bracteole-side:outer-side~", "").replace("stem-hairs@lower-stem:hairless", "stem-hairs@lower-stem:bristly")
    found = walked(tmp_path, demo_site, 'function () { see("shared"); }', anchor=f"{wrong}&stop=yes")["shared"]
    assert not found["end"].startswith("What you saw fits hemlock")
    told = found["text"].partition("Harmful, and still possible if one answer was wrong")[2]
    assert re.search(r"Hemlock\s▲: deadly\.", told)
    assert re.search(r"If one answer was wrong, it may be hemlock\s▲", found["text"].partition("What would contradict it")[0]), (
        "before what fills a screen"
    )
    assert "Against it speaks only this; look again: The lower stem is bristly." in told


@pytest.mark.browser
@needs_browser
def test_from_the_end_any_two_can_be_told_apart_on_the_same_day(demo_site: Path, tmp_path: Path) -> None:
    wrong = HEMLOCK.replace("bracteole-side:outer-side~", "").replace("stem-hairs@lower-stem:hairless", "stem-hairs@lower-stem:bristly")
    found = walked(tmp_path, demo_site, 'function () { see("shared"); }', anchor=f"{wrong}&stop=yes")["shared"]
    assert found["end"] == "What you saw fits sweet cicely"
    of_two = {link.rpartition("/")[2] for link in found["links"] if "/compare/" in link or "/tell.html" in link}
    assert "conium-maculatum--myrrhis-odorata.html?on=2026-06-07" in of_two, "easily taken for each other: a page of their own"
    assert "tell.html?a=myrrhis-odorata&b=chaerophyllum-temulum&on=2026-06-07" in of_two
    both = walked(tmp_path, demo_site, 'function () { see("shared"); }', anchor=f"{HEMLOCK}&stop=yes")["shared"]
    assert "Hemlock or sweet cicely?" in both["text"].partition("Conium")[0], "two names that fit alike are told apart at once"


@pytest.mark.browser
@needs_browser
def test_an_address_that_is_torn_or_old_does_no_more_than_lose_what_it_cannot_read(demo_site: Path, tmp_path: Path) -> None:
    torn = "saw=stem-blotches:blotched~no-such-look:x~petal-colour:no-such~stem-blotches:unblotched~flower-cluster&open=nothing"
    found = walked(tmp_path, demo_site, 'function () { see("shared"); }', anchor=torn)["shared"]
    assert found["saw"] == ["The stem is spotted or blotched with purple."]
    assert found["asked"]


@pytest.mark.browser
@needs_browser
def test_the_date_of_the_address_decides_what_is_asked(demo_site: Path, tmp_path: Path) -> None:
    """In January no plant of the demo has petals, so nobody is asked about them, however little can be told."""
    steps = """function () { see("now"); if (found.now.asked) press("I can't tell"); },""" * 15 + 'function () { see("last"); }'
    january, july = (walked(tmp_path, demo_site, steps, query=f"?on=2026-{month}-15")["last"] for month in ("01", "07"))
    assert not any("petals" in said for said in january["saw"])
    assert january["saw"] != july["saw"]
    assert len(july["saw"]) > 5
