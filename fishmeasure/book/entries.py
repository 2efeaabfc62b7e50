"""What the book holds beside units and cohorts: dated entries that never change.

A correction is a new entry whose ``replaces`` names the old one; a ``Cancelled``
entry takes one back. An entry counts unless another one names it, so taking
back a correction takes back both: write a further correction instead.

Identifiers are UUIDs made by whoever writes the entry. The same entry sent twice
is one entry, which is what lets a phone repeat its queue without harm.
"""

from collections.abc import Mapping
from dataclasses import field, fields
from datetime import datetime
from typing import Annotated, ClassVar, Final, Literal
from uuid import UUID

from pydantic import Field

from fishmeasure.base.errors import BadEntryError
from fishmeasure.base.record import (
    ConditionFactor,
    Count,
    CountSd,
    Day,
    DegC,
    Fraction,
    Grams,
    GramsSd,
    Kilograms,
    LocalTime,
    MgPerL,
    Name,
    Plain,
    Refusal,
    Text,
    between,
    longest,
    plain,
    read,
    record,
)
from fishmeasure.base.words import Message

BodyConstant = Annotated[float, between(0.05, 2.0)]
"""As in a species' file (``species.size.BodyFigures``)."""
RelativeError = Annotated[float, between(0.0, 0.99)]
HeightShare = Annotated[float, between(0.0, 2.0)]
Millimetres = Annotated[float, between(5.0, 5000.0)]


@record(frozen=True, slots=True, kw_only=True)
class Entry:
    """What every dated entry has.

    ``recorded_at`` is written by the book, not by the caller, and is no part of
    an entry's content: it takes no part in comparisons. Nor do ``recorded_by``, the
    device that it came from as it was called then, and ``device_id``: both are empty
    for what was entered at the machine itself; nor ``confirmed``, which says that it
    was asked about and is right as it stands (``asking``). Where no single field says
    what must be there, ``needs`` has the sets of fields of which one must be whole.
    """

    refusal: ClassVar[Refusal] = BadEntryError
    needs: ClassVar[tuple[tuple[str, ...], ...]] = ()
    kind: str
    id: UUID
    on: Day
    replaces: UUID | None = None
    note: Text = ""
    confirmed: bool = field(default=False, compare=False)
    recorded_at: datetime | None = field(default=None, compare=False)
    recorded_by: Name = field(default="", compare=False)
    device_id: UUID | None = field(default=None, compare=False)

    def __post_init__(self) -> None:
        if self.replaces == self.id:
            raise BadEntryError(
                field="replaces", reason=Message.of("entry-slip", case="itself")
            )
        self._check()

    def _check(self) -> None:
        """Check what no single field shows."""

    def _lacks_what_it_needs(self) -> bool:
        return not any(
            all(getattr(self, name) is not None for name in names)
            for names in self.needs
        )

    @property
    def place_id(self) -> UUID | None:
        """The unit it happened in, if it has one."""
        return None

    @property
    def fish_id(self) -> UUID | None:
        """The cohort it is about, if it has one."""
        return None

    @property
    def other_place_ids(self) -> tuple[UUID, ...]:
        """Other units it touches."""
        return ()


@record(frozen=True, slots=True, kw_only=True)
class Cancelled(Entry):
    """Takes back the entry that it replaces."""

    kind: Literal["cancelled"] = "cancelled"

    def _check(self) -> None:
        if self.replaces is None:
            raise BadEntryError(
                field="replaces",
                reason=Message.of("entry-slip", case="which-taken-back"),
            )


@record(frozen=True, slots=True, kw_only=True)
class UnitEntry(Entry):
    """An entry about the water of a unit."""

    unit_id: UUID

    @property
    def place_id(self) -> UUID | None:
        """The unit it happened in."""
        return self.unit_id


@record(frozen=True, slots=True, kw_only=True)
class FishEntry(UnitEntry):
    """An entry about a cohort's fish in one unit."""

    cohort_id: UUID

    @property
    def fish_id(self) -> UUID | None:
        """The cohort it is about."""
        return self.cohort_id


@record(frozen=True, slots=True, kw_only=True)
class Stocked(FishEntry):
    """Fish stocked: a count, or a bulk weight and a mean weight.

    ``fish_count_sd`` None means the usual tolerance of a count.
    """

    needs: ClassVar = (("fish_count",), ("bulk_weight_kg", "mean_weight_g"))
    kind: Literal["stocked"] = "stocked"
    fish_count: Count | None = None
    fish_count_sd: CountSd | None = None
    mean_weight_g: Grams | None = None
    mean_weight_sd_g: GramsSd | None = None
    bulk_weight_kg: Annotated[float, between(0.001, 1e6)] | None = None
    bulk_weight_sd_kg: Kilograms | None = None

    def _check(self) -> None:
        if self._lacks_what_it_needs():
            raise BadEntryError(
                field="fish_count",
                reason=Message.of("entry-slip", case="count-or-bulk"),
            )


@record(frozen=True, slots=True, kw_only=True)
class Died(FishEntry):
    """Dead fish that were seen and taken out."""

    kind: Literal["died"] = "died"
    fish_count: Count
    cause: Text = ""


@record(frozen=True, slots=True, kw_only=True)
class Taken(FishEntry):
    """Fish taken for good: a count, a weight, or better both."""

    needs: ClassVar = (("fish_count",), ("weight_kg",))
    fish_count: Count | None = None
    weight_kg: Kilograms | None = None
    weight_sd_kg: Kilograms | None = None

    def _check(self) -> None:
        if self._lacks_what_it_needs():
            raise BadEntryError(
                field="fish_count",
                reason=Message.of("entry-slip", case="count-and-weight"),
            )


@record(frozen=True, slots=True, kw_only=True)
class Harvested(Taken):
    """Fish taken out to eat or to slaughter."""

    kind: Literal["harvested"] = "harvested"


@record(frozen=True, slots=True, kw_only=True)
class Sold(Taken):
    """Fish sold, alive or dead."""

    kind: Literal["sold"] = "sold"


@record(frozen=True, slots=True, kw_only=True)
class Moved(FishEntry):
    """Fish moved to another unit; they stay in their cohort.

    ``mean_weight_g`` is that of the moved fish where it is known to differ.
    """

    kind: Literal["moved"] = "moved"
    to_unit_id: UUID
    fish_count: Count
    fish_count_sd: CountSd = 0.0
    mean_weight_g: Grams | None = None
    mean_weight_sd_g: GramsSd | None = None

    @property
    def other_place_ids(self) -> tuple[UUID, ...]:
        """Where the fish went."""
        return (self.to_unit_id,)

    def _check(self) -> None:
        if self.to_unit_id == self.unit_id:
            raise BadEntryError(
                field="to_unit_id",
                reason=Message.of("entry-slip", case="same-unit"),
            )


@record(frozen=True, slots=True, kw_only=True)
class GradeGroup:
    """One size group of a grading and the unit that it went to."""

    refusal: ClassVar[Refusal] = BadEntryError
    to_unit_id: UUID
    fish_count: Count
    fish_count_sd: CountSd = 0.0
    mean_weight_g: Grams | None = None
    mean_weight_sd_g: GramsSd | None = None


@record(frozen=True, slots=True, kw_only=True)
class Graded(FishEntry):
    """All fish of a cohort in a unit, sorted by size.

    The groups together are all its fish there: a grading counts them.
    """

    kind: Literal["graded"] = "graded"
    groups: Annotated[tuple[GradeGroup, ...], longest(20)]

    @property
    def other_place_ids(self) -> tuple[UUID, ...]:
        """Where the groups went."""
        return tuple(group.to_unit_id for group in self.groups)

    def _check(self) -> None:
        if not self.groups:
            raise BadEntryError(
                field="groups", reason=Message.of("field-missing", fields=2)
            )
        if len(set(self.other_place_ids)) != len(self.groups):
            raise BadEntryError(
                field="groups", reason=Message.of("entry-slip", case="one-group")
            )


@record(frozen=True, slots=True, kw_only=True)
class Counted(FishEntry):
    """A count of a cohort in a unit, with its tolerance.

    A check, not a correction of history: the difference to the book is data.
    ``fish_count_sd`` None means the usual tolerance; 0 means beyond doubt, as
    in an empty tank.
    """

    kind: Literal["counted"] = "counted"
    fish_count: Count
    fish_count_sd: CountSd | None = None


@record(frozen=True, slots=True, kw_only=True)
class Sample(FishEntry):
    """The mean weight from a net sample, with its interval.

    ``c_g_per_cm3`` is weight over squared depth along the body, where photographed
    nets were weighed, for later photos of the stock. ``ripe`` fish teach none: roe and
    milt weigh as fat does not.
    """

    kind: Literal["sample"] = "sample"
    mean_weight_g: Grams
    mean_weight_low_g: Annotated[float, between(0.0, 200_000.0)]
    mean_weight_high_g: Grams
    level: Annotated[float, between(0.5, 0.999)] = 0.9
    cv: Annotated[float, between(0.0, 3.0)] | None = None
    condition_factor: ConditionFactor | None = None
    condition_factor_low: ConditionFactor | None = None
    condition_factor_high: ConditionFactor | None = None
    a_g_cm: Annotated[float, between(1e-7, 10.0)] | None = None
    b: Annotated[float, between(1.0, 5.0)] | None = None
    fish_measured: Count = 0
    fish_weighed: Count = 0
    photos: Annotated[tuple[Text, ...], longest(500)] = ()
    c_g_per_cm3: BodyConstant | None = None
    c_relative_sd: RelativeError | None = None
    ripe: bool = False

    def _check(self) -> None:
        if not self.mean_weight_low_g <= self.mean_weight_g <= self.mean_weight_high_g:
            raise BadEntryError(
                field="mean_weight_g",
                reason=Message.of("entry-slip", case="outside-weights"),
            )
        factor = self.condition_factor
        low, high = self.condition_factor_low, self.condition_factor_high
        if low is None and high is None:
            return
        if factor is None or low is None or high is None or not low <= factor <= high:
            raise BadEntryError(
                field="condition_factor",
                reason=Message.of("entry-slip", case="outside-conditions"),
            )


@record(frozen=True, slots=True, kw_only=True)
class PhotographedFish:
    """A fish of a photo, by its number there from 1, with what was read beside it."""

    refusal: ClassVar[Refusal] = BadEntryError
    photo: Text
    fish: Annotated[int, between(1, 10_000)]
    weight_g: Grams | None = None
    fork_length_mm: Millimetres | None = None


@record(frozen=True, slots=True, kw_only=True)
class StockEntry(UnitEntry):
    """An entry about how a cohort's fish are built, which moves and counts none."""

    cohort_id: UUID

    @property
    def fish_id(self) -> UUID | None:
        """The cohort it is about."""
        return self.cohort_id


@record(frozen=True, slots=True, kw_only=True)
class StockMeasured(StockEntry):
    """Fish photographed and weighed one by one, and what they tell of their stock.

    Later photos of the cohort use it until it is taken back, or the fish spawn.

    Attributes
    ----------
    fish
        What was read.
    c_g_per_cm3, c_relative_sd
        Weight over squared depth along the body; None where none was weighed.
    a_g_cm, b, level_relative_sd, min_length_mm, max_length_mm
        The stock's line for fork length.
    snout_height, fork_height
        Over the board, as shares of half the thickness, with their relative errors;
        None where no length was read on a ruler.
    ripe
        Whether they were ripe or spawning: then they teach no other fish's weight.
    """

    needs: ClassVar = (
        ("c_g_per_cm3", "c_relative_sd"),
        ("snout_height", "fork_height"),
    )
    kind: Literal["stock-measured"] = "stock-measured"
    fish: Annotated[tuple[PhotographedFish, ...], longest(500)] = ()
    c_g_per_cm3: BodyConstant | None = None
    c_relative_sd: RelativeError | None = None
    a_g_cm: Annotated[float, between(1e-7, 10.0)] | None = None
    b: Annotated[float, between(1.0, 5.0)] | None = None
    level_relative_sd: RelativeError | None = None
    min_length_mm: Millimetres | None = None
    max_length_mm: Millimetres | None = None
    snout_height: HeightShare | None = None
    snout_height_relative_sd: RelativeError | None = None
    fork_height: HeightShare | None = None
    fork_height_relative_sd: RelativeError | None = None
    ripe: bool = False

    def _check(self) -> None:
        if self._lacks_what_it_needs():
            raise BadEntryError(
                field="c_g_per_cm3",
                reason=Message.of("entry-slip", case="nothing-learned"),
            )


@record(frozen=True, slots=True, kw_only=True)
class Spawning(StockEntry):
    """Fish seen ripe or spawning; what photos learned of their weight ends here."""

    kind: Literal["spawning"] = "spawning"


@record(frozen=True, slots=True, kw_only=True)
class Feed(UnitEntry):
    """Feed given in a unit."""

    kind: Literal["feed"] = "feed"
    feed_kg: Kilograms
    protein_fraction: Fraction | None = None
    feed_name: Name = ""


@record(frozen=True, slots=True, kw_only=True)
class FeedBought(Entry):
    """Feed bought for the farm."""

    kind: Literal["feed-bought"] = "feed-bought"
    feed_kg: Kilograms
    feed_name: Name = ""
    pellet_mm: Annotated[float, between(0.05, 50.0)] | None = None


@record(frozen=True, slots=True, kw_only=True)
class Treated(UnitEntry):
    """A medicine given to the fish of a unit; ``on`` is the last day of the treatment.

    Until the withdrawal period has passed no fish of theirs may be taken for food; it
    goes with them to other units. Where both are stated, the later end counts. A
    degree-day is one day at a mean water temperature of 1 °C.
    """

    needs: ClassVar = (("withdrawal_days",), ("withdrawal_degree_days",))
    kind: Literal["treated"] = "treated"
    product: Annotated[Name, Field(min_length=1)]
    withdrawal_days: Annotated[int, between(0, 1000)] | None = None
    withdrawal_degree_days: Annotated[float, between(0.0, 10_000.0)] | None = None
    reason: Text = ""

    def _check(self) -> None:
        if self._lacks_what_it_needs():
            raise BadEntryError(
                field="withdrawal_days",
                reason=Message.of("entry-slip", case="withdrawal"),
            )


WATER_QUANTITIES: Final = (
    "temperature_deg_c",
    "do_mg_per_l",
    "tan_mg_per_l",
    "ph",
    "nitrate_n_mg_per_l",
    "nitrite_n_mg_per_l",
    "alkalinity_mg_per_l",
    "chloride_mg_per_l",
)
"""What a reading may hold, as it is kept."""
# Molar masses in g/mol from the standard atomic weights N 14.007, H 1.008, O 15.999
# (IUPAC 2021, abridged; from memory). Ion over nitrogen: NH4 1.288, NH3 1.216,
# NO2 3.284, NO3 4.427.
_N_G_PER_MOL: Final = 14.007
_AS_IONS: Final = {
    "ammonia_as_nh4_mg_per_l": ("tan_mg_per_l", 14.007 + 4 * 1.008),
    "ammonia_as_nh3_mg_per_l": ("tan_mg_per_l", 14.007 + 3 * 1.008),
    "nitrite_as_no2_mg_per_l": ("nitrite_n_mg_per_l", 14.007 + 2 * 15.999),
    "nitrate_as_no3_mg_per_l": ("nitrate_n_mg_per_l", 14.007 + 3 * 15.999),
}


@record(frozen=True, slots=True, kw_only=True)
class WaterReading(UnitEntry):
    """What was measured in the water; at least one figure.

    ``tan_mg_per_l`` is total ammonia as nitrogen, ``nitrite_n_mg_per_l`` and
    ``nitrate_n_mg_per_l`` are as nitrogen too. A kit that reads the whole ion goes
    into the ``_as_`` fields: they are turned into nitrogen at once and kept as such.
    ``alkalinity_mg_per_l`` is as calcium carbonate.
    """

    needs: ClassVar = tuple((name,) for name in (*WATER_QUANTITIES, *_AS_IONS))
    kind: Literal["water"] = "water"
    at: LocalTime | None = None
    temperature_deg_c: DegC | None = None
    do_mg_per_l: Annotated[float, between(0.0, 40.0)] | None = None
    tan_mg_per_l: MgPerL | None = None
    ph: Annotated[float, between(2.0, 12.0)] | None = None
    nitrate_n_mg_per_l: MgPerL | None = None
    nitrite_n_mg_per_l: MgPerL | None = None
    alkalinity_mg_per_l: MgPerL | None = None
    chloride_mg_per_l: Annotated[float, between(0.0, 30_000.0)] | None = None
    ammonia_as_nh4_mg_per_l: MgPerL | None = None
    ammonia_as_nh3_mg_per_l: MgPerL | None = None
    nitrite_as_no2_mg_per_l: MgPerL | None = None
    nitrate_as_no3_mg_per_l: MgPerL | None = None

    def _check(self) -> None:
        for name, (as_n, grams_per_mol) in _AS_IONS.items():
            value = getattr(self, name)
            if value is None:
                continue
            if getattr(self, as_n) is not None:
                raise BadEntryError(
                    field=name, reason=Message.of("field-beside", other=as_n)
                )
            # Set once, as the record is made; from here on it is frozen.
            object.__setattr__(
                self, as_n, round(value * _N_G_PER_MOL / grams_per_mol, 4)
            )
            object.__setattr__(self, name, None)
        if self._lacks_what_it_needs():
            raise BadEntryError(
                field="reading", reason=Message.of("entry-slip", case="no-figure")
            )


def kind_of(entry: type[Entry]) -> str:
    """Return the word of a kind of entry."""
    return str(next(item.default for item in fields(entry) if item.name == "kind"))


# In the order in which entries of one moment count, see ``order.py``.
ENTRY_KINDS: Mapping[str, type[Entry]] = {
    kind_of(made): made
    for made in (
        Stocked,
        Graded,
        Moved,
        Died,
        Harvested,
        Sold,
        Counted,
        Sample,
        StockMeasured,
        Spawning,
        Feed,
        FeedBought,
        Treated,
        WaterReading,
        Cancelled,
    )
}


# Fields that entries had once, which nothing ever read: left out as old ones are read.
_NO_MORE: Final[Mapping[str, frozenset[str]]] = {"sample": frozenset({"result_json"})}


def entry_to_plain(entry: Entry) -> dict[str, object]:
    """Return an entry as JSON has it, its kind first."""
    return {"kind": entry.kind, **plain(entry, sparse=True)}


def entry_from_plain(values: Plain) -> Entry:
    """Return the entry that the plain values describe.

    Raises
    ------
    BadEntryError
        If the kind is unknown or a field unusable.
    """
    kind = values.get("kind")
    made = ENTRY_KINDS.get(kind) if isinstance(kind, str) else None
    if made is None:
        raise BadEntryError(
            field="kind", reason=Message.of("entry-kind", kinds=tuple(ENTRY_KINDS))
        )
    left_out = _NO_MORE.get(str(kind))
    if left_out is not None:
        values = {k: v for k, v in values.items() if k not in left_out}
    return read(made, values)
