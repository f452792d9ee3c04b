"""knowledge."""
