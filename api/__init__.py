"""HTTP API and phone page."""
