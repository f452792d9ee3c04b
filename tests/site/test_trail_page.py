"""The page of a trail shows the way, leads from each number to its stop, and says in words all that the drawing shows."""

from __future__ import annotations

import re

from bs4 import Tag
from tests.site.built import Built

from twayblade.knowledge.workspace import Workspace

Site = dict[str, Built]


def page(built: Site) -> Built:
    return built["trails/demo_trail.html"]


def test_each_number_on_the_drawings_leads_to_its_stop(built: Site, demo_workspace: Workspace) -> None:
    stops = demo_workspace.trails["demo_trail"].trail.stops
    drawings = page(built).main.select("svg.way")
    assert len(drawings) == 2  # the way, and its heights
    for svg in drawings:
        assert [link["href"] for link in svg.select("a")] == [f"#{stop.id}" for stop in stops]
        assert [link["aria-label"] for link in svg.select("a")] == [f"Stop {n}: {stop.title}" for n, stop in enumerate(stops, 1)]


def test_a_drawing_with_links_is_a_group_with_a_name_and_a_text_of_its_own(built: Site) -> None:
    """WAI-ARIA 1.2: children of the role `img` are presentational, so links in one could not be reached."""
    for svg in page(built).main.select("svg.way"):
        assert svg["role"] == "group"
        named = [svg.find(id=id_) for id_ in str(svg["aria-labelledby"]).split()]
        assert all(isinstance(found, Tag) and found.get_text().strip() for found in named)


def test_the_text_of_the_way_has_its_length_its_ascent_and_every_stop_with_its_distance(built: Site, demo_workspace: Workspace) -> None:
    planned = demo_workspace.trails["demo_trail"]
    text = page(built).main.select("svg.way desc")[0].get_text()
    assert planned.route
    assert f"{planned.route.metres / 1000:.1f} km" in text
    assert f"{planned.route.ascent:.0f} m of ascent" in text
    metres = 0.0
    for stop, leg in zip(planned.trail.stops, planned.route.legs, strict=True):
        metres += leg.metres
        assert re.search(rf"{stop.title}, (after {round(metres, -1):.0f} m|at the start)", text)


def test_an_invented_way_says_so_beside_its_drawing(built: Site) -> None:
    assert "invented" in page(built).main.select("figure.route figcaption")[0].get_text()


def test_no_coordinates_stand_on_the_page(built: Site, demo_workspace: Workspace) -> None:
    route = demo_workspace.trails["demo_trail"].route
    assert route
    for longitude, latitude, _ in route.points:
        assert f"{latitude:.3f}" not in page(built).source
        assert f"{longitude:.3f}" not in page(built).source


def test_each_date_says_how_long_it_takes_what_is_in_flower_and_leads_to_its_script_and_key(built: Site, demo_workspace: Workspace) -> None:
    for on in demo_workspace.trails["demo_trail"].trail.dates:
        section = page(built).main.find(id=f"on-{on}")
        assert isinstance(section, Tag)
        assert re.search(r"\d+:\d\d minutes of \d+:\d\d allowed", section.get_text())
        assert re.search(r"In flower|Perhaps in flower", section.get_text())
        led = {str(link["href"]) for link in section.select("a")}
        assert {f"../trails/demo_trail-{on}.html", f"../keys/demo_trail-{on}.html", f"../trails/demo_trail-{on}-read.html"} <= led
