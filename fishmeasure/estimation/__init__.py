"""Nets and photos to the mean weight and spread of the population."""
