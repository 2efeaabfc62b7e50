"""Printed markers: one module each, and the table of them."""
