"""Whatever the files hold, reading gives problems with places and never raises; and it gives all of them at once."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from twayblade.knowledge.problem import Problem, Severity
from twayblade.knowledge.rules import RULES
from twayblade.reading.workspace import load
from twayblade.reasoning.checks import check_content

PENGUINS = Path(__file__).parents[1] / "penguins"
LANTERN, TRAITS, SOURCES = "content/species/lantern-penguin.yml", "content/traits.yml", "content/sources.yml"
PIECES = "content/pieces.yml"
GROUP, REGION, TRAIL = "content/groups/penguins.yml", "content/regions/archipelago.yml", "colony_walk/trail.yml"
FILES = (LANTERN, TRAITS, SOURCES, GROUP, REGION, TRAIL, PIECES)
often = settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])


def text_of(file: str) -> str:
    return (PENGUINS / file).read_text(encoding="utf-8")


def problems_of(folder: Path) -> list[Problem]:
    """The problems of reading and, where reading found no error, those of the checks of content; each with a place."""
    loaded = load(folder)
    assert list(loaded.problems) == sorted(loaded.problems, key=lambda p: p.order)
    assert (loaded.workspace is None) == any(p.severity is Severity.ERROR for p in loaded.problems)
    found = [loaded.place(f) for f in check_content(loaded.workspace)] if loaded.workspace else []
    for problem in (problems := [*loaded.problems, *found]):
        place = problem.place
        assert problem.rule in RULES
        assert problem.message
        assert "\n" not in problem.message
        assert place.line >= 1
        assert 1 <= place.column <= len(place.text) + 1 or not place.text
    return problems


@pytest.fixture(scope="module")
def penguins(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return Path(shutil.copytree(PENGUINS, tmp_path_factory.mktemp("bad") / "penguins"))


Reading = Callable[[str, str | bytes], list[Problem]]


@pytest.fixture
def read_with(penguins: Path) -> Reading:
    """Reads the penguins with one file written anew; afterwards the file is as before."""

    @contextmanager
    def written(file: str, content: str | bytes) -> Iterator[None]:
        try:
            (penguins / file).write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
            yield
        finally:
            (penguins / file).write_bytes((PENGUINS / file).read_bytes())

    def read(file: str, content: str | bytes) -> list[Problem]:
        with written(file, content):
            return problems_of(penguins)

    return read


@st.composite
def mutilated(draw: st.DrawFn) -> tuple[str, str]:
    """A file of the penguins in which lines are deleted, doubled, exchanged, indented, cut short or given another's value."""
    file = draw(st.sampled_from(FILES))
    lines = text_of(file).split("\n")
    for _ in range(draw(st.integers(1, 4))):
        place = draw(st.integers(0, len(lines) - 1))
        other = draw(st.sampled_from(text_of(draw(st.sampled_from(FILES))).split("\n")))
        odd = draw(
            st.sampled_from(["", "~", "[", "{a: b}", "!x y", "&a *a", "- ", "? ", '"\\0"', "9" * 40, "-1", "2026-02-30", "never", "(", "|", ": "])
        )
        before, _, _ = lines[place].partition(": ")
        lines[place : place + 1] = draw(
            st.sampled_from([[], [lines[place]] * 2, [other], [f"  {lines[place]}"], [lines[place][:7]], [f"{before}: {odd}"], [odd, lines[place]]])
        )
        lines = lines or [""]
    return file, "\n".join(lines)


@often
@given(file=st.sampled_from(FILES), text=st.text(st.characters(exclude_categories=["Cs"])))
def test_no_text_whatsoever_makes_reading_raise(read_with: Reading, file: str, text: str) -> None:
    read_with(file, text)


@often
@given(file=st.sampled_from(FILES), text=st.text(st.sampled_from("ab:-[]{}!&*?|>%@#'\"\\,~< \n\t\0é\u2028")))
def test_no_heap_of_yaml_signs_makes_reading_raise(read_with: Reading, file: str, text: str) -> None:
    read_with(file, text)


@often
@given(file=st.sampled_from(FILES), start=st.integers(0, 400), junk=st.binary(min_size=1, max_size=12))
def test_no_bytes_in_the_midst_of_a_file_make_reading_raise(read_with: Reading, file: str, start: int, junk: bytes) -> None:
    whole = text_of(file).encode()
    read_with(file, whole[:start] + junk + whole[start + len(junk) :])


@often
@given(mutilated())
def test_no_mutilated_file_makes_reading_or_checking_raise(read_with: Reading, case: tuple[str, str]) -> None:
    read_with(*case)


HOSTILE = {
    "an empty file": ("", "field-missing"),
    "nothing but a comment": ("# later\n", "field-missing"),
    "a number where fields are expected": ("5", "field-wrong-kind"),
    "a list where fields are expected": ("[name, values]", "field-wrong-kind"),
    "fields without values": ("name:\ncommon-names:\nvalues:\n", "field-wrong-kind"),
    "five thousand brackets": ("[" * 5000, "yaml-unreadable"),
    "five thousand mappings": ("{a: " * 5000, "yaml-unreadable"),
    "an alias bomb": ("a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n", "yaml-alias"),
    "an alias to itself": ("a: &a [*a]\n", "yaml-alias"),
    "a null byte": ("name: a\0b\n", "yaml-unreadable"),
    "a tag that would run code": ("name: !!python/object/apply:os.system [ls]\n", "yaml-tag"),
    "a tag on a key": ("!x name: a\n", "yaml-tag"),
    "a key that is a list": ("? [a]\n: b\n", "yaml-unreadable"),
    "a merge key": ("<<: {name: a}\n", "field-unknown"),
    "two documents": ("name: a\n---\nname: b\n", "yaml-unreadable"),
    "a key twice": ("name: a\nname: b\n", "yaml-duplicate-key"),
    "bytes of another encoding": ("name: Adélie".encode("latin-1"), "file-unreadable"),
    "text in sixteen bits": ("name: a\n".encode("utf-16"), "file-unreadable"),
}


@pytest.mark.parametrize(("content", "rule"), HOSTILE.values(), ids=HOSTILE)
def test_hostile_content_is_told_by_its_rule(read_with: Reading, content: str | bytes, rule: str) -> None:
    assert rule in {p.rule for p in read_with(LANTERN, content) if p.place.file == LANTERN}


@pytest.mark.parametrize("content", [c for c, _ in HOSTILE.values()], ids=HOSTILE)
@pytest.mark.parametrize("file", [f for f in FILES if f != LANTERN])
def test_hostile_content_raises_in_no_kind_of_file(read_with: Reading, file: str, content: str | bytes) -> None:
    assert read_with(file, content)


def changed(file: str, *changes: tuple[str, str]) -> str:
    text = text_of(file)
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def told(problems: list[Problem], file: str) -> list[tuple[str, str, tuple[str, ...]]]:
    """The line and column that a caret points at are told by the text that follows there."""
    assert {p.place.file for p in problems} == {file}
    return [(p.rule, p.place.text[p.place.column - 1 :], p.hints) for p in problems]


def test_every_mistake_in_a_profile_is_told_in_one_run_in_order_with_the_nearest_names(read_with: Reading) -> None:
    text = changed(
        LANTERN,
        ("group: penguins", "group: pengins"),
        ("summary: ", "sumary: "),
        ("class: none-found", "class: none-fond"),
        ("  flipper-length: 120-150 mm [invented]", "  flipper-lenght: 120-150 mm [invented]"),
        ("bill-length: 20-27 mm", "bill-length: 27-20 mm"),
        ("crest: crest [invented]", "crest: creest [invented]"),
        ("rarely no-mark [invented]", "rarely no-mark [inventd]"),
        ("from: adelie-penguin", "from: adelei-penguin"),
    )
    assert [(rule, rest.split(" [")[0], hints) for rule, rest, hints in told(read_with(LANTERN, text), LANTERN)] == [
        ("id-unknown", "pengins", ("did you mean `penguins`?",)),
        ("field-unknown", rest_of(text, "sumary: "), ("did you mean `summary`?",)),
        ("field-wrong-kind", "none-fond", ("did you mean `none-found`?",)),
        ("notation", "27-20 mm", ()),
        ("id-unknown", "flipper-lenght: 120-150 mm", ("did you mean `flipper-length`?",)),
        ("id-unknown", "creest", ("did you mean `crest`?",)),
        ("id-unknown", "usually round-mark, rarely no-mark", ("did you mean `invented`?",)),
        ("id-unknown", "adelei-penguin", ("did you mean `adelie-penguin`?",)),
    ]


def rest_of(text: str, start: str) -> str:
    return next(line for line in text.splitlines() if line.startswith(start)).split(" [")[0]


def test_every_mistake_in_a_trail_is_told_in_one_run(read_with: Reading) -> None:
    text = changed(
        TRAIL,
        ("region: archipelago", "region: archipelag"),
        ("allows: 20 min", "allows: 20"),
        ("11:00", "25:15"),
        ("id: upper-stones", "id: pebble-beach"),
    )
    assert told(read_with(TRAIL, text), TRAIL) == [
        ("id-unknown", "archipelag", ("did you mean `archipelago`?",)),
        ("date-impossible", '"25:15"', ()),
        ("notation", "20", ()),
        ("id-double", "pebble-beach", ()),
    ]


def test_a_trait_that_is_refused_is_told_once_and_not_at_every_value_of_it(read_with: Reading) -> None:
    text = text_of(TRAITS).replace("kind: measure", "kind: mesure", 1)
    assert told(read_with(TRAITS, text), TRAITS) == [("field-wrong-kind", "mesure", ("did you mean `measure`?",))]


@pytest.mark.parametrize("file", [TRAITS, SOURCES, GROUP, REGION, PIECES])
def test_a_file_that_cannot_be_read_is_told_once_and_not_wherever_others_refer_to_it(read_with: Reading, file: str) -> None:
    assert [rule for rule, _, _ in told(read_with(file, "[" * 50 + "]" * 50), file)] == ["yaml-unreadable"]


TRAPS = {
    "a state that is a kind of itself": (TRAITS, ("phrase: an upright crest", "phrase: an upright crest\n      kind-of: crest"), "crest"),
    "a misreading without a number": (TRAITS, ("misread-by: 10 mm", "misread-by: about a thumb"), "about a thumb"),
    "a misreading in another unit": (TRAITS, ("misread-by: 10 mm", "misread-by: 1 cm"), "1 cm"),
    "two measures at once": (LANTERN, ("flipper-length: 120-150 mm [", "flipper-length: 120 x 150 mm ["), "120 x 150 mm [invented]"),
    "a name over several lines": (LANTERN, ("name: Pygoscelis ficta Invented", "name: |\n  ficta\n  once more"), "|"),
}


@pytest.mark.parametrize(("file", "change", "pointed_at"), TRAPS.values(), ids=TRAPS)
def test_what_would_only_fail_later_is_told_while_reading(read_with: Reading, file: str, change: tuple[str, str], pointed_at: str) -> None:
    assert ("notation", pointed_at, ()) in told(read_with(file, changed(file, change)), file)


@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_lines_are_counted_alike_whatever_ends_them(read_with: Reading, ending: str, mark: str) -> None:
    text = mark + changed(LANTERN, ("  flipper-length: 120", "  flipper-lenght: 120")).replace("\n", ending)
    assert [(p.place.line, p.place.column) for p in read_with(LANTERN, text)] == [(22, 3)]
