"""The look is made for sunlight: every colour stands out from its ground, in light, in the dark and in print; nothing moves, nothing is fetched
from afar, and what only scripts can work is not there without them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from tests.site.built import Built

ROOT = re.compile(r"^\s*(:root[^{]*)\{([^}]*--ink[^}]*)\}", re.MULTILINE)
COLOURS = re.compile(r"--(\w+):\s*(#[0-9a-fA-F]{3,6})\b")
LIGHT, DARK, CHOSEN, PRINT = ":root", ":root:not(.light)", ":root.dark", ":root, :root:not(.light), :root.dark"


def channels(colour: str) -> list[float]:
    digits = colour.removeprefix("#")
    pairs = [d * 2 for d in digits] if len(digits) == 3 else [digits[n : n + 2] for n in (0, 2, 4)]
    return [int(pair, 16) / 255 for pair in pairs]


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it (w3c/wcag, guidelines/terms), with its threshold of 0.04045."""
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels(colour))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio as WCAG 2.2 defines it."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    # Computed from the formula of WCAG 2.2.
    [("#000", "#fff", 21.0), ("#767676", "#fff", 4.5422), ("#777", "#fff", 4.4781), ("#595959", "#fff", 7.0047), ("#00f", "#fff", 8.5925)],
)
def test_the_formula_used_here_gives_known_ratios(one: str, other: str, ratio: float) -> None:
    assert contrast(one, other) == pytest.approx(ratio, abs=0.001)


@pytest.fixture(scope="module")
def style(demo_site: Path) -> str:
    return (demo_site / "look.css").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def schemes(style: str) -> dict[str, dict[str, str]]:
    """The colours of each scheme by its selector."""
    return {selector.strip(): dict(COLOURS.findall(body)) for selector, body in ROOT.findall(style)}


def test_there_is_a_scheme_for_light_dark_and_print_and_dark_is_the_same_asked_for_by_the_system_or_the_reader(
    schemes: dict[str, dict[str, str]],
) -> None:
    assert set(schemes) == {LIGHT, DARK, CHOSEN, PRINT}
    assert schemes[DARK] == schemes[CHOSEN]
    assert all(set(scheme) == set(schemes[LIGHT]) for scheme in schemes.values())


def test_text_stands_out_from_its_ground_at_seven_to_one(schemes: dict[str, dict[str, str]]) -> None:
    """WCAG 2.2, 1.4.6 (AAA) for text of any size."""
    for scheme in schemes.values():
        for name in ("ink", "accent", "soft"):
            assert contrast(scheme[name], scheme["paper"]) >= 7, (name, scheme)


def test_lines_and_rims_stand_out_at_three_to_one(schemes: dict[str, dict[str, str]]) -> None:
    """WCAG 2.2, 1.4.11 (AA) for what is not text; held for hairlines too, which it does not ask for."""
    for scheme in schemes.values():
        for name in ("line", "hair"):
            assert contrast(scheme[name], scheme["paper"]) >= 3, (name, scheme)


def test_no_colour_stands_outside_the_schemes(style: str) -> None:
    """Else it would be the same in light, in the dark and in print."""
    rest = COLOURS.sub("", style)
    assert re.findall(r"#[0-9a-fA-F]{3,8}\b|\b(?:rgb|hsl|oklch|color-mix)a?\(", rest) == []


def test_paper_is_plain_white_and_print_is_black(schemes: dict[str, dict[str, str]]) -> None:
    assert (schemes[LIGHT]["ink"], schemes[LIGHT]["paper"]) == ("#000", "#fff")
    assert {schemes[PRINT][name] for name in ("ink", "accent", "line", "soft")} == {"#000"}


def test_drawings_in_the_dark_are_light_lines_on_the_very_ground_of_the_page(style: str, schemes: dict[str, dict[str, str]]) -> None:
    """Filter Effects 1: invert(a) makes of a channel c the value a + c (1 - 2a)."""
    amounts = {float(amount) for amount in re.findall(r"--drawn: invert\(([\d.]+)\)", style)}
    assert len(amounts) == 1
    (amount,) = amounts
    ground, line = round(255 * (1 - amount)), round(255 * amount)
    assert channels(schemes[DARK]["paper"]) == [ground / 255] * 3
    assert contrast(f"#{line:02x}{line:02x}{line:02x}", schemes[DARK]["paper"]) >= 7


def test_nothing_moves(style: str) -> None:
    """So a reader who asks for less motion (prefers-reduced-motion) has none, and nobody else has either."""
    assert re.findall(r"\b(?:animation|transition|scroll-behavior|@keyframes)\b", style) == []


def test_faces_come_with_the_site_small_and_with_their_licence(demo_site: Path) -> None:
    faces = (demo_site / "faces.css").read_text(encoding="utf-8")
    named = re.findall(r'url\("([^"]+)"\)', faces)
    assert len(named) == 2
    for name in named:
        file = demo_site / name
        assert file.read_bytes()[:4] == b"wOF2"  # WOFF File Format 2.0, 4.1: the signature
        assert file.stat().st_size < 30_000
    licence = (demo_site / "fonts" / "OFL.txt").read_text(encoding="utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in licence
    assert "Reserved Font Name" not in licence.partition("PREAMBLE")[0]  # a face cut to size may not bear a reserved name


def test_what_only_scripts_can_work_is_hidden_without_them(built: dict[str, Built]) -> None:
    for page in built.values():
        assert [e.name for e in page.tree.select("body > header [data-day], body > footer [data-dark]") if not e.has_attr("hidden")] == []


def test_the_head_of_a_page_says_where_one_is(built: dict[str, Built]) -> None:
    sections = {
        "taxa/conium-maculatum.html": "taxa.html",
        "compare/anthriscus-sylvestris--conium-maculatum.html": "compare.html",
        "keys/demo_trail-2026-06-07.html": "trails/demo_trail.html",
        "plans/demo_trail.html": "trails/demo_trail.html",
        "year.html": "year.html",
    }
    for address, section in sections.items():
        page = built[address]
        (here,) = page.tree.select("header .here")
        (marked,) = page.tree.select("header nav [aria-current]")
        assert [page.led_to(element.parent)[-1][0] for element in (here, marked) if element.parent] == [section, section]
        assert marked["aria-current"] == ("page" if address == section else "true")


def test_on_paper_there_are_neither_menus_nor_controls_nor_closed_evidence(style: str) -> None:
    paper = style[style.rindex("@media print") :]
    hidden = " ".join(re.findall(r"^\s*([^{}@]+)\{ display: none; \}", paper, re.MULTILINE))
    assert all(part in hidden for part in (".skip", ".menu", ".day", ".foot ul", "button", "details:not([open])"))


def test_scripts_of_the_theme_are_classic_strict_and_ask_for_nothing(demo_site: Path) -> None:
    scripts = sorted((demo_site / "js").glob("*.js"))
    assert scripts
    for script in scripts:
        text = script.read_text(encoding="utf-8")
        assert '"use strict";' in text, script.name
        assert not re.search(r"^\s*(?:import|export)\b|\bfetch\(|XMLHttpRequest|WebSocket|document\.cookie|\beval\(", text, re.MULTILINE), script.name


def test_nothing_is_kept_on_the_device_but_the_choices_of_the_reader(demo_site: Path) -> None:
    kept = {key for script in (demo_site / "js").glob("*.js") for key in re.findall(r'"(twayblade-\w+)"', script.read_text(encoding="utf-8"))}
    assert kept <= {"twayblade-dark", "twayblade-offline"}
