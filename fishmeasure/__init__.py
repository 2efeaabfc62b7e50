"""Photo-based fish size estimator with a batch weighing helper."""

__version__ = "0.1.0"
