"""What every room uses: estimates, problems, flags, errors, words."""
