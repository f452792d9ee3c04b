"""writing."""
