"""The ways a stop can go on the day of the walk."""

from __future__ import annotations

from enum import StrEnum


class Branch(StrEnum):
    """Which of its prepared ways a stop takes."""

    AS_HOPED = "as-hoped"
    """The plants stand as the script shows them."""
    PAST = "past"
    """They are over: in fruit, or dry stems."""
    NOT_FOUND = "not-found"
    """They are not there, or were mown, grazed or sprayed."""
    WET = "wet"
    """The ground is too wet or the wind too strong for what was planned."""
