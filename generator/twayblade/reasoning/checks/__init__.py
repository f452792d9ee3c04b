"""Checks of content: each module one subject; `check_content` is the door."""

from twayblade.reasoning.checks.everything import check_content

__all__ = ["check_content"]
