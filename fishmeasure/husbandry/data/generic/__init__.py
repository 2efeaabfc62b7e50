"""generic."""
