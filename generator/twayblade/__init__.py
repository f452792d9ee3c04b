"""Twayblade: checked interpretive scripts, trail guides and pocket keys from structured species profiles."""

from importlib.metadata import version

__version__ = version("twayblade")
