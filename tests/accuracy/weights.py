"""Weights by outlines: stocks drawn and rendered, and fish that others measured.

``python -m tests.accuracy.weights drawn [REPLICATES]`` draws stocks from thin to fat;
``samples [REPLICATES]`` estimates such stocks from four photographed nets of eight,
without a weighing and with one net weighed; ``rendered FOLDER`` measures rendered
stocks, c learned from five fish of the first photo of each family; ``tables FILE...``
leaves one lot or species out of tables of weight, length and greatest depth
(Charr.csv, finnish_159_fish.csv), which hold no outline; ``lots SHARED`` leaves one lot
out of tables of weight and length alone: what is left where no outline is seen.
"""

import csv
import json
import sys
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import numpy as np

from fishmeasure.base.arrays import FloatArray
from fishmeasure.base.estimate import UncertaintySource
from fishmeasure.photo.length import FishLength
from fishmeasure.photo.measurement import MeasuredFish, PhotoMeasurement, weighed
from fishmeasure.photo.weighing import PhotoWeights, photo_weights, with_weights
from fishmeasure.pipeline import PhotoSettings, measure_photo
from fishmeasure.species import Species, load_species
from fishmeasure.species.body_fit import fit_body, own_body
from tests.estimation.test_sizes import estimated, stock

STOCK_SD = 0.043
"""Spread of c between stocks of a species in truth: three farmed species."""
SOURCES = (
    UncertaintySource(name="print scale unchecked", relative_sd=0.003, scope="sample"),
    UncertaintySource(name="lens", relative_sd=0.003, scope="photo"),
    UncertaintySource(name="camera height", relative_sd=0.002, scope="photo"),
    UncertaintySource(name="how fish were laid", relative_sd=0.004, scope="photo"),
    UncertaintySource(name="end points", relative_sd=0.004, scope="fish"),
)
KEYS = {
    "farm-rainbow": "rainbow-trout",
    "lake-char": "arctic-char",
    "deep-carp": "common-carp",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """A stock's photo: true mean weight and condition, and what was said."""

    name: str
    condition: float
    true_g: float
    said: PhotoWeights

    @property
    def error(self) -> float:
        return self.said.mean_weight_g.value / self.true_g - 1.0

    @property
    def held(self) -> bool:
        found = self.said.mean_weight_g
        return found.low <= self.true_g <= found.high

    @property
    def width(self) -> float:
        found = self.said.mean_weight_g
        return (found.high - found.low) / (2.0 * found.value)


# --- drawn stocks -----------------------------------------------------------------


def fish_of(fork_mm: float, squared_depth_mm3: float) -> FishLength:
    """Return a straight, whole fish of a photo with these sizes."""
    return FishLength(
        fork_length_mm=fork_mm,
        fork_length_se_mm=0.008 * fork_mm,
        total_length_mm=1.05 * fork_mm,
        total_length_se_mm=0.008 * fork_mm,
        standard_length_mm=0.92 * fork_mm,
        standard_length_se_mm=0.02 * fork_mm,
        body_depth_mm=0.24 * fork_mm,
        body_depth_se_mm=0.01 * fork_mm,
        thickness_mm=0.13 * fork_mm,
        area_mm2=0.2 * fork_mm**2,
        bend_deg=0.0,
        outline_px=np.empty((0, 2)),
        midline_px=np.array([[0.0, 0.0], [1000.0, 0.0]]),
        snout_px=np.zeros(2),
        fork_px=np.array([1000.0, 0.0]),
        confidence=1.0,
        complete=True,
        sources=SOURCES,
        squared_depth_mm3=squared_depth_mm3,
    )


def drawn_photo(
    rng: np.random.Generator, condition: float, c: float, count: int, scale: float
) -> tuple[list[FishLength], FloatArray]:
    """Return fish as a photo shows them, and their true weights.

    Single fish differ by 8 % in depth and 6 % in thickness; edges err by 4.5 % of
    squared depth a fish and 4.5 % a photo, the scale by what the sources say.
    """
    length = 240.0 * np.exp(rng.normal(0.0, 0.1, count))
    depth = np.exp(rng.normal(0.0, 0.08, count))
    thick = np.exp(rng.normal(0.0, 0.06, count))
    weight = condition / 100.0 * (length / 10.0) ** 3 * depth * thick
    volume = 1000.0 * weight / (c * thick)
    of_photo = float(np.exp(scale + rng.normal(0.0, 0.0036)))
    laid = float(np.exp(rng.normal(0.0, 0.004)))
    edges = np.exp(rng.normal(0.0, 0.045, count) + rng.normal(0.0, 0.045))
    ends = np.exp(rng.normal(0.0, 0.004, count)) * laid
    fish = [
        fish_of(float(mm), float(mm3))
        for mm, mm3 in zip(
            length * of_photo * ends, volume * of_photo**3 * edges, strict=True
        )
    ]
    return fish, weight


def learned(
    species: Species, fish: list[FishLength], weight_g: FloatArray, photos: list[str]
) -> Species:
    """Return the species with the c that ``fit`` learns from weighed fish."""
    volume = np.array([one.squared_depth_mm3 for one in fish], dtype=float)
    length = np.array([one.fork_length_mm for one in fish])
    fit = fit_body(
        volume,
        length,
        weight_g,
        photos=photos,
        photo_relative_sd=0.047,
        shared_relative_sd=0.009,
    )
    return replace(species, body=own_body(fit, species.body, note=""))


def drawn_stocks(replicates: int, *, known: bool, seed: int = 9) -> Iterator[Judged]:
    """Yield photos of stocks with K of 0.9 to 1.8, deep ones up to 2.6 among them.

    With ``known`` c comes from five fish of another stock, in two photos; else it is
    the published one, of which the species errs by 7 % and stocks by 7.5 %, with tails.
    """
    rng = np.random.default_rng(seed)
    trout = load_species("rainbow-trout")
    for _ in range(replicates):
        condition = float(rng.uniform(0.9, 1.8)) * (1.4 if rng.uniform() < 0.2 else 1.0)
        scale = float(rng.normal(0.0, 0.003))
        if known:
            c0 = 0.45
            other = c0 * float(np.exp(rng.normal(0.0, STOCK_SD)))
            first = drawn_photo(rng, float(rng.uniform(0.9, 1.8)), other, 3, scale)
            second = drawn_photo(rng, float(rng.uniform(0.9, 1.8)), other, 2, scale)
            weights = np.concatenate([first[1], second[1]])
            fish = [*first[0], *second[0]]
            species = learned(trout, fish, weights, ["a"] * 3 + ["b"] * 2)
            c = c0 * float(np.exp(rng.normal(0.0, STOCK_SD)))
        else:
            species = trout
            tails = 0.075 * float(rng.standard_t(4.0)) / np.sqrt(2.0)
            c = 0.5 * float(np.exp(rng.normal(0.0, 0.07) + tails))
        seen, true_g = drawn_photo(rng, condition, c, 8, scale)
        said = photo_weights([weighed(one, species) for one in seen], species)
        assert said is not None
        yield Judged(
            name="drawn", condition=condition, true_g=float(true_g.mean()), said=said
        )


def print_judged(title: str, judged: list[Judged]) -> None:
    errors = np.array([one.error for one in judged])
    widths = np.array([one.width for one in judged])
    print(
        f"{title}: {len(judged)} photos, mean error {100 * np.abs(errors).mean():.1f} "
        f"%, bias {100 * errors.mean():+.1f} %, 90 % intervals hold "
        f"{100 * np.mean([one.held for one in judged]):.1f} %, half width "
        f"{100 * np.median(widths):.1f} % (95 % under "
        f"{100 * np.quantile(widths, 0.95):.1f} %)"
    )


def print_samples(replicates: int) -> None:
    """Print how samples of four photographed nets are told, none and one weighed."""
    errors: dict[str, list[float]] = {"no net weighed": [], "one net weighed": []}
    held: dict[str, list[bool]] = {way: [] for way in errors}
    for number in range(replicates):
        rng = np.random.default_rng(1000 + number)
        fat = float(rng.uniform(0.65, 1.4))
        tails = 0.075 * float(rng.standard_t(4.0)) / np.sqrt(2.0)
        thick = float(np.exp(rng.normal(0.0, 0.07) + tails))
        nets, weights, true_g, _ = stock(rng, fat, thick)
        edges, scale = np.exp(rng.normal(0.0, 0.04, 4)), np.exp(rng.normal(0.0, 0.02))
        told = sum(weights[0, place].weight_g for place in range(8))
        all_told = sum(one.weight_g for one in weights.values())
        weighed_g = 32.0 * true_g * 1.01 * told / all_told
        seen = {
            key: replace(one, weight_g=float(one.weight_g * edges[key[0]] * scale))
            for key, one in weights.items()
        }
        heavy = (replace(nets[0], net_g=float(round(weighed_g))), *nets[1:])
        for way, dips in zip(errors, (nets, heavy), strict=True):
            found = estimated(dips, seen).handled_mean_weight_g
            errors[way].append(abs(found.value / true_g - 1.0))
            held[way].append(found.low < true_g < found.high)
    for way, mine in errors.items():
        print(
            f"{way}: {replicates} samples, mean error {100 * np.mean(mine):.1f} %, "
            f"90 % intervals hold {100 * np.mean(held[way]):.1f} %"
        )


# --- rendered stocks --------------------------------------------------------------


def rendered_stocks(folder: Path) -> Iterator[tuple[str, Judged]]:
    """Yield each photo's mean by the published figures and by c of another stock."""
    teachers: dict[str, Species] = {}
    for path in sorted(folder.glob("*.truth.json")):
        truth = json.loads(path.read_text(encoding="utf-8"))
        picture = folder / truth["photo"]
        if not picture.exists():
            continue
        family = truth["fish"][0]["family"]
        key = KEYS.get(family)
        if key is None:
            continue
        species = load_species(key)
        photo = measure_photo(
            picture.read_bytes(), picture.name, PhotoSettings(species=species)
        )
        pairs = matched(photo.complete_fish, truth["fish"])
        ways = [("published", species)]
        if family in teachers:
            ways.append(("learned", teachers[family]))
        for way, kind in ways:
            again = weighed_as(photo, kind)
            said = photo_weights(again.fish, kind)
            if said is None:
                continue
            true = [weight for _, weight in pairs]
            lengths = [one.fork_length_mm for one, _ in pairs]
            condition = np.mean(100.0 * np.array(true) / (np.array(lengths) / 10) ** 3)
            yield (
                way,
                Judged(
                    name=f"{path.name.removesuffix('.truth.json')} {family}",
                    condition=float(condition),
                    true_g=float(np.mean(true)),
                    said=said,
                ),
            )
        if family not in teachers:
            five = [
                (one, weight)
                for one, weight in pairs
                if one.squared_depth_mm3 and "outline-doubtful" not in one.flags
            ][:5]
            weights = np.array([weight for _, weight in five])
            fish: list[FishLength] = [one for one, _ in five]
            teachers[family] = learned(species, fish, weights, ["a"] * len(five))


def weighed_as(photo: PhotoMeasurement, kind: Species) -> PhotoMeasurement:
    """Return the photo with its fish weighed by another's figures."""
    return with_weights(photo, lambda _: kind)


def matched(
    fish: tuple[MeasuredFish, ...], truth: list[dict[str, Any]]
) -> list[tuple[MeasuredFish, float]]:
    """Return the fish that are found with their true weights."""
    pairs = []
    for one in fish:
        gaps = [
            (float(np.hypot(*(one.snout_px - np.array(t["snout_px"])))), t["weight_g"])
            for t in truth
        ]
        pairs.append((one, float(min(gaps)[1])))
    return pairs


# --- fish that others measured ----------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Weight in g, fork length and greatest depth in cm, and the lot of each fish."""

    name: str
    weight: FloatArray
    length: FloatArray
    depth: FloatArray
    lot: list[str]


def read_table(path: Path) -> list[Table]:
    """Return the tables of a file, one a species."""
    with path.open(encoding="utf-8") as stream:
        rows = list(csv.DictReader(stream))
    if "bodydepth" in rows[0]:
        kept = [r for r in rows if "NA" not in (r["wt"], r["bodydepth"], r["fl"])]
        figures = np.array(
            [
                [float(r["wt"]), float(r["fl"]) / 10, float(r["bodydepth"]) / 10]
                for r in kept
            ]
        )
        condition = 100.0 * figures[:, 0] / figures[:, 1] ** 3
        sound = (condition > 0.4) & (condition < 1.5)  # two slips of the pen
        lot = [f"{r['form']} {r['season']} {r['habitat']}" for r in kept]
        return [
            Table(
                name="Arctic char, wild, lots of form, season and habitat",
                weight=figures[sound, 0],
                length=figures[sound, 1],
                depth=figures[sound, 2],
                lot=[one for one, good in zip(lot, sound, strict=True) if good],
            )
        ]
    kept = [r for r in rows if float(r["weight_g"] or 0.0) > 0.0]
    return [
        Table(
            name="seven lake species, one left out",
            weight=np.array([float(r["weight_g"]) for r in kept]),
            length=np.array([float(r["length_fork_cm"]) for r in kept]),
            depth=np.array(
                [
                    float(r["length_std_cm"]) * float(r["height_pct_total"]) / 100.0
                    for r in kept
                ]
            ),
            lot=[r["species_name"] for r in kept],
        )
    ]


def print_table(table: Table) -> None:
    """Print errors of lots left out: by L^3, L^2 H and L H^2 of the other lots."""
    ways = {
        "L^3": table.length**3,
        "L^2 H": table.length**2 * table.depth,
        "L H^2": table.length * table.depth**2,
    }
    lots = list(dict.fromkeys(table.lot))
    print(f"\n{table.name}: {len(table.weight)} fish, {len(lots)} lots")
    print("| by | single fish, mean error | mean of a lot, rms |\n| --- | --- | --- |")
    for way, size in ways.items():
        ratio = np.log(table.weight / size)
        fish, means = [], []
        for lot in lots:
            mine = np.array([one == lot for one in table.lot])
            others = np.mean(
                [ratio[np.array(table.lot) == o].mean() for o in lots if o != lot]
            )
            off = others - ratio[mine]
            fish += list(np.abs(np.expm1(off)))
            means.append(off.mean())
        rms = float(np.sqrt(np.mean(np.array(means) ** 2)))
        print(f"| {way} | {100 * np.mean(fish):.1f} % | {100 * rms:.1f} % |")


@dataclass(frozen=True, slots=True, kw_only=True)
class Lots:
    """A table of weight and length, and the columns of both and of the lot."""

    file: str
    length: str
    weight: str
    lot: str


FEWEST_OF_A_LOT = 10
LOTS = (
    Lots(file="bull_trout_rml1", length="fl", weight="mass", lot="era"),
    Lots(file="chinook_argentina", length="tl", weight="w", lot="loc"),
    Lots(
        file="cutthroat_trout_mack_creek",
        length="length_1_mm",
        weight="weight_g",
        lot="year",
    ),
    Lots(file="siscowet_lake_trout_mi2004", length="len", weight="wgt", lot="locID"),
    Lots(file="yellow_perch_trout_lake", length="length", weight="weight", lot="year4"),
)


def print_lots(folder: Path) -> None:
    """Print how far each lot and its fish are from the others' mean W / L^3."""
    print(
        "| table | lots | fish | single fish, mean error | mean of a lot, rms | worst |"
    )
    print("| --- | --- | --- | --- | --- | --- |")
    for table in LOTS:
        lots = _lots(folder / f"{table.file}.csv", table)
        fish: list[float] = []
        means: list[float] = []
        levels = {name: float(np.mean(y - 3.0 * x)) for name, (x, y) in lots.items()}
        for name, (x, y) in lots.items():
            others = [level for other, level in levels.items() if other != name]
            off = float(np.mean(others)) + 3.0 * x - y
            fish += list(np.abs(np.expm1(off)))
            means.append(float(off.mean()))
        rms = float(np.sqrt(np.mean(np.array(means) ** 2)))
        worst = 100 * float(np.abs(means).max())
        print(
            f"| {table.file} | {len(lots)} | {len(fish)} | {100 * np.mean(fish):.1f} % "
            f"| {100 * rms:.1f} % | {worst:.0f} % |"
        )


def _lots(path: Path, table: Lots) -> dict[str, tuple[FloatArray, FloatArray]]:
    """Return ln length and ln weight of each lot, slips of the pen left out."""
    found: dict[str, list[tuple[float, float]]] = {}
    with path.open(encoding="utf-8") as stream:
        for row in csv.DictReader(stream):
            try:
                length, weight = float(row[table.length]), float(row[table.weight])
            except ValueError:
                continue
            if length > 0.0 and weight > 0.0:
                pair = float(np.log(length)), float(np.log(weight))
                found.setdefault(row[table.lot], []).append(pair)
    every = np.array([pair for pairs in found.values() for pair in pairs])
    condition = every[:, 1] - 3.0 * every[:, 0]
    middle, spread = np.median(condition), np.std(condition)
    kept = {}
    for name, pairs in found.items():
        figures = np.array(pairs)
        sound = np.abs(figures[:, 1] - 3.0 * figures[:, 0] - middle) < 4.0 * spread
        if sound.sum() >= FEWEST_OF_A_LOT:
            kept[name] = figures[sound, 0], figures[sound, 1]
    return kept


def main() -> None:
    what, *rest = sys.argv[1:] or ["drawn"]
    if what == "drawn":
        replicates = int(rest[0]) if rest else 400
        for known in (False, True):
            title = "c of five fish of another stock" if known else "published c"
            print_judged(title, list(drawn_stocks(replicates, known=known)))
    elif what == "samples":
        print_samples(int(rest[0]) if rest else 250)
    elif what == "lots":
        print_lots(Path(rest[0]) / "reference" / "datasets")
    elif what == "rendered":
        found: dict[str, list[Judged]] = {}
        for way, one in rendered_stocks(Path(rest[0])):
            found.setdefault(way, []).append(one)
            low, high = one.said.mean_weight_g.low, one.said.mean_weight_g.high
            print(
                f"{way:9} {one.name:24} K {one.condition:.2f} true {one.true_g:6.1f} g "
                f"said {one.said.mean_weight_g.value:6.1f} ({low:.0f} to {high:.0f}) "
                f"{100 * one.error:+.1f} %{'' if one.held else ' MISSED'}"
            )
        for way, judged in found.items():
            print_judged(way, judged)
    else:
        for name in rest:
            for table in read_table(Path(name)):
                print_table(table)


if __name__ == "__main__":
    main()
