"""What the book knows of a cohort's own fish, for its photos and samples."""

import datetime as dt
from collections.abc import Callable
from uuid import UUID

from api.services import Services
from fishmeasure.base.errors import UnknownRecordError
from fishmeasure.book.stock import StockKnown, stock_known
from fishmeasure.photo.settings import PhotoChoices
from fishmeasure.species import Species, packaged_species


def stock_on(
    services: Services,
    species: Species,
    cohort_id: UUID | None,
    on: dt.date,
    *,
    without: UUID | None = None,
) -> StockKnown:
    """Return a species as a cohort's own fish have taught it by a day.

    Without a cohort, or one that the book has not, it is as published.
    """
    if cohort_id is None:
        return StockKnown(species=species)
    entries = services.book.entries(cohort_id=cohort_id, only_in_force=True)
    return stock_known(species, entries, cohort_id=cohort_id, on=on, without=without)


def stock_token(known: StockKnown) -> str:
    """Return what tells whether something else is known of a stock."""
    told = ",".join(str(one.id) for one in known.tellings)
    return f"{told};{known.is_ripe}" if told or known.is_ripe else ""


def stock_of_photo(
    services: Services, settings: PhotoChoices, on: dt.date
) -> Callable[[str], Species]:
    """Return what gives the species of a key for a photo's fish.

    Those of its cohort's species are that cohort's; an empty key is the default one.
    """
    cohort_id, usual = settings.cohort_id, services.settings.species

    def species(key: str) -> Species:
        found = packaged_species(key or usual)
        if cohort_id is None:
            return found
        try:
            same = services.book.cohort(cohort_id).species_key == found.key
        except UnknownRecordError:  # the phone's cohort is on its way
            return found
        if not same:
            return found
        return stock_on(services, found, cohort_id, on).of_photos

    return species
