"""Where the book, photos and samples are kept."""
