"""The book: dated, immutable entries. The only database code."""
