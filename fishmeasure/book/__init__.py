"""The grower's book: entries, and what a replay of them comes to."""
