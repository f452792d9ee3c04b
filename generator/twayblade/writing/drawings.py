"""The drawings of a workspace: of each taxon, of two side by side, and of each condition; with their addresses and words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.compare import Difference
from twayblade.reasoning.depiction import Beside, Depiction, apart, depict_beside, depict_condition, depict_state, pieces_of
from twayblade.reasoning.relation import Relation
from twayblade.reasoning.spread import Extent
from twayblade.writing.addresses import beside_address, condition_address, drawing_address
from twayblade.writing.drawing.drawers import draw_piece
from twayblade.writing.drawing_words import drawing_text, drawing_title
from twayblade.writing.phrases import capital


@dataclass(frozen=True)
class Picture:
    """A drawing: its address in the site, the SVG, and the text that stands for it."""

    address: str
    svg: str
    title: str
    text: str


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

    def of_state(self, trait_id: str, state: str) -> Picture | None:
        """A state by itself; None if it is not drawn."""
        return self._of_condition(trait_id, depict_state(self.workspace, trait_id, state), None)

    def of_condition(self, trait_id: str, extent: Extent, part: str | None = None) -> tuple[Picture, ...]:
        """A condition of a trait by itself: each of the widest states it covers, or one number; nothing if one of them is not drawn."""
        depictions = [depict_condition(self.workspace, trait_id, each, part) for each in apart(self.workspace.traits[trait_id], extent)]
        found = [self._of_condition(trait_id, depiction, part) for depiction in depictions]
        return tuple(picture for picture in found if picture) if all(found) else ()

    def _of_condition(self, trait_id: str, depiction: Depiction | None, part: str | None) -> Picture | None:
        return self._picture(condition_address(trait_id, str(depiction.shown[0].condition), part), depiction) if depiction else None

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
        if address not in self._made:
            title, text = drawing_title(self.workspace, depiction, taxon, form), drawing_text(self.workspace, depiction, taxon, form)
            self._made[address] = Picture(address, draw_piece(depiction.piece, depiction.settings, title, text, pointers), title, text)
        return self._made[address]
