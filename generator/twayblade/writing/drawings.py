"""The drawings of a workspace: of each taxon, of two side by side, and of each condition; with their addresses and words."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from twayblade.knowledge.numbers import Interval
from twayblade.knowledge.pieces import Parameter, ParameterKind, PieceKind, Setting
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.compare import Difference
from twayblade.reasoning.depiction import Beside, Depiction, depict, depict_beside, depict_condition, depict_state, pieces_of
from twayblade.reasoning.key import Asked, Key
from twayblade.reasoning.questions import Span
from twayblade.reasoning.relation import Relation
from twayblade.reasoning.spread import extent_of_ranges
from twayblade.writing.addresses import beside_address, condition_address, drawing_address, scaled_address, setting_address
from twayblade.writing.cautions import short_caution
from twayblade.writing.drawing.drawers import draw_piece
from twayblade.writing.drawing_words import condition_words, drawing_text, drawing_title
from twayblade.writing.phrases import capital


@dataclass(frozen=True)
class Picture:
    """A drawing: its address in the site, the SVG, its title, and the text that stands for it. condition: of a condition by itself, that in words."""

    address: str
    piece: str
    form: str | None
    svg: str
    title: str
    text: str
    condition: str = ""

    @property
    def size(self) -> tuple[str, str]:
        """Width and height in units, as the SVG gives them."""
        found = re.search(r'width="([\d.]+)" height="([\d.]+)"', self.svg)
        assert found
        return found[1], found[2]


@dataclass(frozen=True)
class Pointed:
    """What a number in two drawings points to: the difference, by the name of its trait; whether it holds only usually."""

    number: int
    difference: Difference
    name: str
    is_usual: bool


@dataclass(frozen=True)
class PictureBeside:
    """Two taxa drawn side by side by one piece, with what the numbers point to."""

    piece: str
    title: str
    first: Picture
    second: Picture
    pointed: tuple[Pointed, ...]


class Drawings:
    """Makes the pictures that pages ask for, each once, and keeps them."""

    def __init__(self, workspace: Workspace, region: str | None) -> None:
        self.workspace, self.region = workspace, region
        self._made: dict[str, Picture] = {}

    def files(self) -> tuple[Picture, ...]:
        """Every picture that was asked for, by address."""
        return tuple(self._made[address] for address in sorted(self._made))

    def of_taxon(self, taxon: Taxon) -> tuple[Picture, ...]:
        """Every drawing of a taxon and of its forms."""
        made = pieces_of(self.workspace, taxon, self.region)
        return tuple(self._picture(drawing_address(taxon.id, depiction.piece, form), depiction, taxon, form) for depiction, form in made)

    def of_pair(self, first: Taxon, second: Taxon) -> tuple[PictureBeside, ...]:
        """Two taxa side by side by every piece in which something tells them apart; what differs is numbered through all of them."""
        found: list[PictureBeside] = []
        for piece in self.workspace.pieces:
            beside = depict_beside(self.workspace, first, second, piece, self.region)
            if beside:
                found.append(self._beside(beside, first, second, 1 + sum(len(made.pointed) for made in found)))
        return tuple(found)

    def of_group(self, members: Sequence[Taxon], piece: str) -> tuple[tuple[Taxon, Picture], ...]:
        """Some taxa by one piece, to one scale; those of which nothing is known of it are left out."""
        made = [(taxon, depiction) for taxon in members if (depiction := depict(self.workspace, taxon, piece, self.region))]
        ruler = self.workspace.pieces[piece].ruler or ""
        lengths = [length for _, depiction in made if isinstance(length := depiction.settings.get(ruler), Decimal)]
        to_scale = [(taxon, replace(depiction, frame=max(lengths, default=None))) for taxon, depiction in made]
        return tuple((taxon, self._picture(scaled_address(taxon.id, piece), depiction, taxon)) for taxon, depiction in to_scale)

    def of_lead(self, asked: Asked, place: int) -> tuple[Picture, ...]:
        """What one lead of a couplet asks for by a sign: each state it names, or one number; nothing if one of them is not drawn."""
        side = asked.question.sides[asked.sides[place]]
        span = side if isinstance(side, tuple) else None
        return self.of_conditions(asked.question.trait, asked.question.at.part, asked.states[place], span)

    def of_conditions(self, trait_id: str, part: str | None, states: Sequence[str], span: Span | None = None) -> tuple[Picture, ...]:
        """Each of some states at a part of an organ, or one number of a span; nothing if one of them is not drawn."""
        if span is None:
            return self._all_of(trait_id, [depict_state(self.workspace, trait_id, state, part) for state in states], part)
        numbers = extent_of_ranges([Interval(*span)], self.workspace.traits[trait_id])
        return self._all_of(trait_id, [depict_condition(self.workspace, trait_id, numbers, part)], part)

    def of_asked(self, trait_id: str, key: Key, signs: int) -> tuple[Picture, ...]:
        """Every condition of a trait that a key asks for among so many signs of each couplet, each once."""
        signs_of = [(couplet, asked) for couplet in key.couplets for asked in couplet.signs[:signs] if asked.question.trait == trait_id]
        found = [picture for couplet, asked in signs_of for place in range(len(couplet.leads)) for picture in self.of_lead(asked, place)]
        return tuple({picture.condition: picture for picture in reversed(found)}.values())[::-1]

    def of_state(self, trait_id: str, state: str) -> Picture | None:
        """A state by itself; None if it is not drawn."""
        return self._of_condition(trait_id, depict_state(self.workspace, trait_id, state), None)

    def of_pieces(self) -> tuple[tuple[PieceKind, tuple[tuple[Parameter, tuple[Picture, ...]], ...]], ...]:
        """Every piece that some trait draws, with each of its parameters in each manner (counts: some), as the page about drawings shows them."""
        used = {drawing.piece for trait in self.workspace.traits.values() for drawing in trait.draws}
        return tuple(
            (kind, tuple((p, tuple(self._of_setting(kind, p, s) for s in _samples(p))) for p in kind.parameters.values()))
            for kind in self.workspace.pieces.values()
            if kind.name in used
        )

    def _of_setting(self, kind: PieceKind, parameter: Parameter, setting: Setting) -> Picture:
        text = f"{parameter.name}: {setting}"
        return self._draw(
            setting_address(kind.name, parameter.name, str(setting)), kind.name, {**parameter.beside, parameter.name: setting}, text, text
        )

    def _all_of(self, trait_id: str, depictions: list[Depiction | None], part: str | None) -> tuple[Picture, ...]:
        found = [self._of_condition(trait_id, depiction, part) for depiction in depictions]
        return tuple(picture for picture in found if picture) if all(found) else ()

    def _of_condition(self, trait_id: str, depiction: Depiction | None, part: str | None) -> Picture | None:
        if depiction is None:
            return None
        shown = depiction.shown[0]
        made = self._picture(condition_address(trait_id, str(shown.condition), part), depiction)
        return replace(made, condition=condition_words(self.workspace, shown))

    def _beside(self, beside: Beside, first: Taxon, second: Taxon, start: int) -> PictureBeside:
        pointed = tuple(
            Pointed(start + n, d, self.workspace.traits[d.trait].name, d.relation is Relation.USUALLY_SEPARATE)
            for n, d in enumerate(beside.differing)
        )
        pointers = {parameter: p.number for p in pointed for parameter in beside.parameters(p.difference)}
        piece = beside.first.piece
        pictures = [
            self._picture(beside_address(taxon.id, other.id, piece), depiction, taxon, pointers=pointers)
            for taxon, other, depiction in ((first, second, beside.first), (second, first, beside.second))
        ]
        return PictureBeside(piece, capital(self.workspace.pieces[piece].title), pictures[0], pictures[1], pointed)

    def _picture(
        self, address: str, depiction: Depiction, taxon: Taxon | None = None, form: str | None = None, pointers: Mapping[str, int] | None = None
    ) -> Picture:
        title, text = drawing_title(self.workspace, depiction, taxon, form), drawing_text(self.workspace, depiction, taxon, form)
        care = short_caution(taxon) if taxon else ""
        return self._draw(address, depiction.piece, depiction.settings, title, text, form, pointers, care)

    def _draw(
        self,
        address: str,
        piece: str,
        settings: Mapping[str, Setting],
        title: str,
        text: str,
        form: str | None = None,
        pointers: Mapping[str, int] | None = None,
        care: str = "",
    ) -> Picture:
        """care: a caution that the drawing carries in itself, since it may leave the page whose cautions stand beside it."""
        if address not in self._made:
            svg = draw_piece(piece, settings, title, " ".join(filter(None, (text, care))), pointers, self.workspace.own_pieces)
            self._made[address] = Picture(address, piece, form, svg, title, text)
        return self._made[address]


def _samples(parameter: Parameter) -> tuple[Setting, ...]:
    """What a page about drawings shows of a parameter: every manner; of counts some; of lengths none, since any is drawn to scale."""
    return (0, 1, 3, 5, 8, 13) if parameter.kind is ParameterKind.COUNT else parameter.manners
