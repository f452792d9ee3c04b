"""The look is made for sunlight: every colour of text stands out from its ground, in light, in the dark and in print."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = re.compile(r":root\s*\{([^}]*)\}")
COLOURS = re.compile(r"--(\w+):\s*(#[0-9a-fA-F]{3,6})\b")


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


def schemes(style: str) -> list[dict[str, str]]:
    return [dict(COLOURS.findall(body)) for body in ROOT.findall(style)]


def test_text_stands_out_from_its_ground_at_seven_to_one(demo_site: Path) -> None:
    """WCAG 2.2, 1.4.6 (AAA) for text of any size."""
    found = schemes((demo_site / "look.css").read_text(encoding="utf-8"))
    assert len(found) == 3  # light, dark, print
    for scheme in found:
        for name in ("ink", "accent", "soft"):
            assert contrast(scheme[name], scheme["paper"]) >= 7, (name, scheme)


def test_lines_that_carry_meaning_stand_out_at_three_to_one(demo_site: Path) -> None:
    """WCAG 2.2, 1.4.11 (AA) for what is not text."""
    for scheme in schemes((demo_site / "look.css").read_text(encoding="utf-8")):
        assert contrast(scheme["line"], scheme["paper"]) >= 3


def test_text_takes_its_colour_from_the_scheme_alone(demo_site: Path) -> None:
    style = (demo_site / "look.css").read_text(encoding="utf-8")
    for match in re.finditer(r"(?<![\w-])(?:color|background(?:-color)?):\s*([^;}]+)", style):
        assert match[1].strip() in {"var(--ink)", "var(--paper)", "var(--accent)", "var(--soft)", "inherit"}
