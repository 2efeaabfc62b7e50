"""Stocking calculations: one module each, pure functions."""
