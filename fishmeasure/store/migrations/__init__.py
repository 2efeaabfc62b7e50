"""Migrations of the book, one file per step; Alembic runs them."""
