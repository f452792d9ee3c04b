"""reasoning."""
