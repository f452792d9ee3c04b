"""The relations of two values of one trait: the table of the algebra, in one place.

| relation         | when                                                                                          |
|------------------|-----------------------------------------------------------------------------------------------|
| separate         | nothing in common, lesser values and open rests included                                      |
| usually separate | usual values share nothing, and one side's usual values lie outside all the other's           |
|                  | (its rare states ignored, its outer limits and open rests counted)                            |
| tendency         | usual values share nothing, but neither lies clear of the other                               |
| same             | usual values are equal                                                                        |
| nested           | usual values of one lie inside the other's                                                    |
| overlap          | usual values share something                                                                  |
| unknown          | a side has no value                                                                           |
| not comparable   | the trait does not apply to a side, or the values speak of different parts or stages          |
"""

from __future__ import annotations

from enum import StrEnum

from twayblade.reasoning.spread import Spread, lies_in, meets


class Relation(StrEnum):
    """The relation of two values, from the best contrast to none."""

    SEPARATE = "separate"
    USUALLY_SEPARATE = "usually-separate"
    TENDENCY = "tendency"
    OVERLAP = "overlap"
    NESTED = "nested"
    SAME = "same"
    UNKNOWN = "unknown"
    NOT_COMPARABLE = "not-comparable"

    @property
    def is_contrast(self) -> bool:
        """Whether the values tell two taxa apart, at least usually."""
        return self in (Relation.SEPARATE, Relation.USUALLY_SEPARATE)

    @property
    def rank(self) -> int:
        """0 for the best contrast; a higher number tells less."""
        return list(Relation).index(self)


def relate(a: Spread, b: Spread) -> Relation:
    """The relation of what two values allow. Symmetric."""
    if not meets(a.all, b.all):
        return Relation.SEPARATE
    if not meets(a.usual, b.usual):
        a_lies_clear = bool(a.usual) and not meets(a.usual, b.without_rare)
        b_lies_clear = bool(b.usual) and not meets(b.usual, a.without_rare)
        return Relation.USUALLY_SEPARATE if a_lies_clear or b_lies_clear else Relation.TENDENCY
    if lies_in(a.usual, b.usual) and lies_in(b.usual, a.usual):
        return Relation.SAME
    if lies_in(a.usual, b.usual) or lies_in(b.usual, a.usual):
        return Relation.NESTED
    return Relation.OVERLAP
