"""One posterior for a cohort: what all its entries say together (see README)."""

from fishmeasure.book.posterior.priors import Assumptions

__all__ = ["Assumptions"]
