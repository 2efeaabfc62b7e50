"""``Book``: a unit's outlook from the stock book."""

import os
import weakref
from datetime import date
from types import TracebackType
from typing import TYPE_CHECKING, Any, Self

from fishmeasure.base.record import plain
from fishmeasure.face.shown import Shown, Table, count, interval
from fishmeasure.outlook.unit import Options, UnitOutlook
from fishmeasure.store.book import open_existing

if TYPE_CHECKING:
    from fishmeasure.base.estimate import Estimate
    from fishmeasure.base.flags import Problem
    from fishmeasure.husbandry.now import Now
    from fishmeasure.outlook.fish import CohortOutlook


class Outlook(Shown):
    """What follows for one unit on one day; ``record`` holds every answer."""

    def __init__(self, record: UnitOutlook) -> None:
        self.record = record

    @property
    def now(self) -> "Now":
        """What the water says now: good, watch, act or unknown, and why."""
        return self.record.now

    @property
    def fish(self) -> "tuple[CohortOutlook, ...]":
        """The fish in the unit, by cohort."""
        return self.record.cohorts

    @property
    def fish_count(self) -> "Estimate":
        """Of all fish in the unit."""
        return self.record.fish_count

    @property
    def biomass_kg(self) -> "Estimate | None":
        """None while no weight is known."""
        return self.record.biomass_kg

    @property
    def ration_kg(self) -> "Estimate | None":
        """Today's feed; None where it cannot be said."""
        return self.record.ration_kg

    @property
    def room_kg(self) -> "Estimate | None":
        """How much more fish the nearest limit leaves room for."""
        return self.record.room_kg

    @property
    def problems(self) -> "tuple[Problem, ...]":
        """Those of every answer, the worst first."""
        return self.record.problems

    def to_json(self) -> Any:
        """Return what ``fishmeasure outlook --json`` writes."""
        return plain(self.record)

    def __repr__(self) -> str:
        record = self.record
        return (
            f"<Outlook of {record.unit.name} on {record.on}: water {self.now.verdict}, "
            f"{count(len(self.problems), 'problem')}>"
        )

    def _rows(self) -> list[tuple[str, ...]]:
        weights = [
            (
                f"mean weight, {one.fish.cohort.name}",
                interval(one.fish.mean_weight_g, 0, "g"),
            )
            for one in self.fish
        ]
        return [
            ("water now", self.now.verdict),
            ("fish", interval(self.fish_count)),
            *weights,
            ("biomass", interval(self.biomass_kg, 1, "kg")),
            ("ration today", interval(self.ration_kg, 2, "kg")),
            ("room for", interval(self.room_kg, 1, "kg")),
        ]

    def _tables(self) -> tuple[Table, ...]:
        title = f"{self.record.unit.name} on {self.record.on}"
        return (Table(title, ("", ""), self._rows()),)


class Book:
    """The stock book, opened to be read.

    Parameters
    ----------
    path_or_url
        Of the file, or an address such as ``postgresql://user@host/book``.

    Raises
    ------
    FishMeasureError
        If there is no book, or it cannot be read.

    Examples
    --------
    With the invented tanks of ``fishmeasure demo --on 2026-08-01 --book FILE``:

    >>> with Book(demo) as book:
    ...     print(book.units)
    ...     outlook = book.outlook("Tank A", on="2026-08-01")
    ('Tank A', 'Tank B')
    >>> outlook  # doctest: +ELLIPSIS
    <Outlook of Tank A on 2026-08-01: water ...>
    >>> count = outlook.fish_count
    >>> count.low <= count.value <= count.high
    True
    """

    def __init__(self, path_or_url: str | os.PathLike[str]) -> None:
        self._name = os.fspath(path_or_url)
        self._book = open_existing(self._name)
        # A notebook keeps no "with": the database is let go with the last name of it.
        self._close = weakref.finalize(self, self._book.close)

    @property
    def units(self) -> tuple[str, ...]:
        """Names of the units."""
        return tuple(unit.name for unit in self._book.units())

    def outlook(
        self,
        unit: str,
        on: date | str | None = None,
        *,
        options: Options | None = None,
    ) -> Outlook:
        """Return what follows for a unit at the end of a day.

        Parameters
        ----------
        unit
            Its name.
        on
            The day, or how it is written: "2026-08-01"; else today.
        options
            What ``fishmeasure outlook`` takes as options.

        Raises
        ------
        FishMeasureError
            If the book has no such unit.
        """
        if on is None:
            on = date.today()  # noqa: DTZ011 - the grower's own day
        day = on if isinstance(on, date) else date.fromisoformat(on)
        return Outlook(self._book.outlook(unit, day, options))

    def close(self) -> None:
        """Let go of the database."""
        self._close()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def __repr__(self) -> str:
        # An address may hold a password; units say better which book it is.
        return f"<Book: {', '.join(self.units) or 'no units'}>"
