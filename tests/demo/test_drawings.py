"""The drawings of the demonstration: light, alone on their paper, alike where the data are alike."""

from __future__ import annotations

import json
from statistics import median
from xml.etree import ElementTree

import pytest
import typst

from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.depiction import depict_beside
from twayblade.reasoning.lookalikes import look_alikes
from twayblade.writing.drawing.drawers import DRAWERS, sketch_piece
from twayblade.writing.drawings import Drawings, Picture

SVG = "{http://www.w3.org/2000/svg}"
ELEMENTS = {"svg", "title", "desc", "g", "path"}
"""What the drawings are made of; all of it is in SVG 1.1 (W3C Recommendation, second edition, 2011)."""


@pytest.fixture(scope="module")
def drawings(demo_workspace: Workspace) -> Drawings:
    """Every drawing of taxa, pairs and states."""
    made = Drawings(demo_workspace, demo_workspace.home_region)
    for taxon in demo_workspace.taxa.values():
        made.of_taxon(taxon)
    for pair in look_alikes(demo_workspace):
        made.of_pair(demo_workspace.taxa[pair.first], demo_workspace.taxa[pair.second])
    for trait_id, trait in demo_workspace.traits.items():
        for state in trait.states:
            made.of_state(trait_id, state)
    return made


def test_half_of_all_drawings_take_less_than_six_kilobytes(drawings: Drawings) -> None:
    assert median(len(picture.svg.encode()) for picture in drawings.files()) < 6000


def test_a_drawing_holds_lines_title_and_description_and_nothing_from_outside(drawings: Drawings) -> None:
    for picture in drawings.files():
        root = ElementTree.fromstring(picture.svg)
        assert {element.tag.removeprefix(SVG) for element in root.iter()} <= ELEMENTS
        assert [root[0].tag, root[0].text, root[1].tag] == [f"{SVG}title", picture.title, f"{SVG}desc"]
        assert str(root[1].text).startswith(picture.text)
        assert "href" not in picture.svg
        assert "url(" not in picture.svg


def test_a_drawing_of_a_harmful_plant_says_so_wherever_it_is_taken(demo_workspace: Workspace, drawings: Drawings) -> None:
    for taxon in demo_workspace.taxa.values():
        for picture in drawings.of_taxon(taxon):
            assert picture.svg.count("Look only.") == taxon.hazard_class.is_harmful


def test_no_two_states_of_a_trait_look_alike(demo_workspace: Workspace, drawings: Drawings) -> None:
    def lines(picture: Picture) -> str:
        return picture.svg.partition("</desc>")[2]

    for trait_id, trait in demo_workspace.traits.items():
        drawn = [lines(p) for state in trait.states if (p := drawings.of_state(trait_id, state))]
        assert len(set(drawn)) == len(drawn), trait_id


def test_everything_that_is_seen_by_eye_is_drawn(demo_workspace: Workspace) -> None:
    """A smell has no picture; all other traits have one, and so has each of their states."""
    assert [id_ for id_, trait in demo_workspace.traits.items() if not trait.draws] == ["leaf-smell"]
    for id_, trait in demo_workspace.traits.items():
        assert all(state.drawn for state in trait.states.values()) or not trait.draws, id_


def test_in_a_pair_only_the_layers_of_what_tells_the_two_apart_differ(demo_workspace: Workspace) -> None:
    for pair in look_alikes(demo_workspace):
        first, second = demo_workspace.taxa[pair.first], demo_workspace.taxa[pair.second]
        for piece in demo_workspace.pieces:
            beside = depict_beside(demo_workspace, first, second, piece)
            if beside is None:
                continue
            one, other = beside.first.settings, beside.second.settings
            changed = {name.replace("-", "_") for name in {*one, *other} if one.get(name) != other.get(name)}
            needing = {t.needs.trait for t in demo_workspace.traits.values() if t.needs}
            named = {p for d in beside.differing for p in beside.parameters(d)}
            organs = {d.trait for d in beside.differing} & needing
            assert changed <= {name.replace("-", "_") for name in named} or organs, (pair, piece)
            a, b = (dict(sketch_piece(piece, s).layers) for s in (one, other))
            for layer in DRAWERS[piece].layers:
                if not layer.reads & changed:
                    assert a.get(layer.name) == b.get(layer.name), (pair, piece, layer.name)


def test_every_pointer_of_a_pair_stands_in_both_drawings(demo_workspace: Workspace, drawings: Drawings) -> None:
    for pair in look_alikes(demo_workspace):
        for beside in drawings.of_pair(demo_workspace.taxa[pair.first], demo_workspace.taxa[pair.second]):
            for picture in (beside.first, beside.second):
                root = ElementTree.fromstring(picture.svg)
                (pointers,) = (g for g in root.iter(f"{SVG}g") if g.attrib.get("class") == "pointers")
                dots = sum(path.attrib["d"].count("a1.6 1.6 0 1 0 3.2") for path in pointers)
                assert dots == len(beside.pointed), (pair, beside.piece)


def test_all_drawings_can_be_set_on_paper(drawings: Drawings) -> None:
    """Read by another renderer than a browser's: typst, which uses resvg. Each stands on the sheet at 20 mm, and one in ten at 120 mm."""
    svgs = [picture.svg for picture in drawings.files()]
    shown = "".join(f'#image(bytes(data.at({n})), format: "svg", width: 20mm)\n' for n in range(len(svgs)))
    large = "".join(f'#image(bytes(data.at({n})), format: "svg", width: 120mm)\n' for n in range(0, len(svgs), 10))
    source = "#let data = json(bytes(sys.inputs.data))\n#set page(columns: 6)\n" + shown + "#set page(columns: 1)\n" + large
    made = typst.compile(source.encode(), format="pdf", sys_inputs={"data": json.dumps(svgs)})
    assert isinstance(made, bytes)
    assert made.startswith(b"%PDF")
