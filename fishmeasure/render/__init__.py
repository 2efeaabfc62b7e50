"""The outlook in words and on paper."""
