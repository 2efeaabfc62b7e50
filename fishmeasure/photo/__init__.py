"""A photo to the lengths of the fish in it."""
