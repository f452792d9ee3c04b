"""Tests. A package, so that none of the same name among the installed ones stands before it."""
