"""The JSON Schema that comes from the fields describes the files as they are written."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator
from pydantic import TypeAdapter

from twayblade.knowledge.library import Group, Region, Source, Term
from twayblade.knowledge.pieces import OwnPiece
from twayblade.knowledge.profile import Profile
from twayblade.knowledge.trail import Trail
from twayblade.knowledge.trait import Trait


class TextLoader(yaml.SafeLoader):
    """Scalars stay text, as the reader has them; only true and false are told from it."""


TextLoader.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in resolvers if tag.endswith(":bool")]
    for first, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()
}


@pytest.mark.parametrize(
    ("kind", "pattern"),
    [
        (dict[str, Trait], "content/traits.yml"),
        (dict[str, Source], "content/sources.yml"),
        (dict[str, Term], "content/glossary.yml"),
        (Group, "content/groups/*.yml"),
        (Profile, "content/species/*.yml"),
        (Trail, "*/trail.yml"),
    ],
)
def test_every_file_of_the_demo_fits_the_schema_of_its_fields(demo: Path, kind: Any, pattern: str) -> None:
    fit(kind, list(demo.glob(pattern)))


def test_pieces_of_its_own_fit_the_schema_of_their_fields(penguins: Path) -> None:
    fit(dict[str, OwnPiece], [penguins / "content/pieces.yml"])


def fit(kind: Any, files: list[Path]) -> None:
    schema = TypeAdapter(kind).json_schema()
    Draft202012Validator.check_schema(schema)
    validator = Draft202012Validator(schema)
    assert files
    for file in files:
        data = yaml.load(file.read_text(encoding="utf-8"), TextLoader)
        assert [error.message for error in validator.iter_errors(data)] == [], file.name


def test_the_schema_refuses_what_the_reader_refuses() -> None:
    validator = Draft202012Validator(TypeAdapter(Profile).json_schema())
    assert not validator.is_valid({"name": "Planta ficta"})
    assert not validator.is_valid({"name": "Planta ficta", "common-names": {"en": "made-up plant"}, "habits": "none"})
    assert validator.is_valid({"name": "Planta ficta", "common-names": {"en": "made-up plant"}})


def test_the_schema_holds_photographs_to_a_plain_name_a_maker_and_a_licence() -> None:
    validator = Draft202012Validator(TypeAdapter(Profile).json_schema())
    entry = {"file": "flower.jpg", "maker": "a maker", "licence": "CC BY 4.0", "stage": "flower", "traits": "crest", "shows": "White flowers."}
    plant = {"name": "Planta ficta", "common-names": {"en": "made-up plant"}}
    assert validator.is_valid({**plant, "photographs": [entry]})
    for wrong in ({"file": "../flower.jpg"}, {"file": "flower.gif"}, {"maker": ""}, {"licence": ""}):
        assert not validator.is_valid({**plant, "photographs": [entry | wrong]}), wrong
    for field in set(entry) - {"traits"}:
        assert not validator.is_valid({**plant, "photographs": [{key: said for key, said in entry.items() if key != field}]}), field


def test_regions_say_home_with_yes_or_no() -> None:
    assert Region.model_validate({"name": "here", "home": "yes"}).home
