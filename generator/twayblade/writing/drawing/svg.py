"""A sketch as SVG 1.1: no script, no style sheet, no font, nothing from outside."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from html import escape

from twayblade.writing.drawing.figures import width_of, write
from twayblade.writing.drawing.pen import Fill, Pen, Point, Stroke, Weight
from twayblade.writing.drawing.sketch import Sketch

MARGIN = 26
"""Width of the strips left and right in which the numbers of pointers stand, in units."""
_NUMBER = 13
BAR = 26
"""Height of the strip below a picture in which its scale bar stands."""
_ROUND = (1, 2, 5)


def as_svg(made: Sketch, title: str, description: str, pointers: Mapping[str, int] | None = None, with_margins: bool = False) -> str:
    """The whole picture.

    pointers: the number that stands beside each parameter pointed to. with_margins: as wide as with pointers, though there may be none.
    """
    has_bar = made.units_per_mm is not None
    left = MARGIN if pointers or with_margins else 0
    width, height = made.width + 2 * left, made.height + (BAR if has_bar else 0)
    groups = [_group(name, strokes) for name, strokes in made.layers]
    if made.units_per_mm is not None:
        groups.append(_group("scale-bar", scale_bar(made.units_per_mm, made.width, made.height)))
    if pointers:
        groups.append(_group("pointers", _pointers(made, pointers)))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="{width:g}" height="{height:g}" viewBox="{-left:g} 0 {width:g} {height:g}">'
        f"<title>{escape(title, quote=False)}</title><desc>{escape(description, quote=False)}</desc>"
        f'<g fill="none" stroke="#000" stroke-width="{Weight.INNER}" stroke-linecap="round" stroke-linejoin="round">{"".join(groups)}</g></svg>\n'
    )


def _group(name: str, strokes: tuple[Stroke, ...]) -> str:
    """A layer. The commonest look of its strokes is written once, on the group; a stroke that differs carries its own."""
    plain = Stroke("", Weight.INNER, Fill.NONE)
    looks = Counter((s.weight, s.fill) for s in strokes).most_common(1)
    common = Stroke("", *looks[0][0]) if looks else plain
    paths = "".join(f'<path d="{s.data}"{_look(s, common)}/>' for s in strokes)
    return f'<g class="{name}"{_look(common, plain)}>{paths}</g>'


def _look(stroke: Stroke, given: Stroke) -> str:
    weight = "" if stroke.weight is given.weight else f' stroke-width="{stroke.weight}"'
    fill = "" if stroke.fill is given.fill else f' fill="{stroke.fill}"'
    return weight + fill


def bar_length(units_per_mm: float, room: float) -> float:
    """The longest round length in mm (1, 2 or 5 and a power of ten) whose bar fits a room in units."""
    best = 0.001
    for power in range(-3, 9):
        for digit in _ROUND:
            if digit * 10.0**power * units_per_mm <= room:
                best = digit * 10.0**power
    return best


def length_words(mm: float) -> str:
    """A length in the unit in which it is a whole number: `5 mm`, `2 cm`, `1 m`, `5 km`."""
    for unit, size in (("km", 1_000_000), ("m", 1000), ("cm", 10)):
        if mm >= size:
            return f"{mm / size:g} {unit}"
    return f"{mm:g} mm"


def scale_bar(units_per_mm: float, width: float, height: float) -> tuple[Stroke, ...]:
    """A bar of a round length with that length beside it, below a picture of some width and height."""
    pen = Pen("bar", unsteadiness=0)
    mm = bar_length(units_per_mm, width * 0.45)
    start, end = complex(4, height + 14), complex(4 + mm * units_per_mm, height + 14)
    pen.corner([start, end], Weight.OUTLINE)
    pen.corner([start - 4j, start + 4j], Weight.INNER)
    pen.corner([end - 4j, end + 4j], Weight.INNER)
    write(pen, length_words(mm), end + 8 - 6j, 12)
    return tuple(pen.strokes)


def _pointers(made: Sketch, pointers: Mapping[str, int]) -> tuple[Stroke, ...]:
    """Thin lines from the margins to the parts pointed to, a number at the outer end of each; none crosses another's number."""
    pen = Pen("pointers", unsteadiness=0)
    sides: dict[bool, list[tuple[Point, int]]] = {True: [], False: []}
    for name, number in pointers.items():
        place = made.places.get(name)
        if place is not None and all(number != n for found in sides.values() for _, n in found):
            sides[place.real < made.width / 2].append((place, number))
    for is_left, found in sides.items():
        heights = spread([place.imag for place, _ in found], _NUMBER + 5, _NUMBER / 2 + 1, made.height - _NUMBER / 2 - 1)
        for (place, number), y in zip(found, heights, strict=True):
            text = str(number)
            wide = width_of(text, _NUMBER)
            x = -MARGIN + 3 if is_left else made.width + MARGIN - 3 - wide
            write(pen, text, complex(x, y - _NUMBER / 2), _NUMBER, Weight.OUTLINE)
            near = complex(x + wide + 4, y) if is_left else complex(x - 4, y)
            pen.corner([near, place], Weight.FINE)
            pen.dot(place, 1.6)
    return tuple(pen.strokes)


def spread(wanted: list[float], apart: float, low: float, high: float) -> list[float]:
    """Places near the wanted ones, in their order, at least so far apart and, while there is room, within bounds."""
    order = sorted(range(len(wanted)), key=lambda i: wanted[i])
    places = [0.0] * len(wanted)
    last = low - apart
    for i in order:
        places[i] = last = max(wanted[i], last + apart)
    limit = high
    for i in reversed(order):
        places[i] = min(places[i], limit)
        limit = places[i] - apart
    return places
