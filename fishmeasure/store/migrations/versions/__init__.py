"""One module per migration, oldest first."""
