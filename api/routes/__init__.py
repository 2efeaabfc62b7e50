"""One module a noun; handlers of a few lines over the core and the book."""
