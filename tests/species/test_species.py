"""Every species file, and the loader."""

import csv
import math
import re
from pathlib import Path
from typing import get_args

import pytest

import fishmeasure
from fishmeasure.base.errors import SpeciesError, SpeciesFileError, UnknownSpeciesError
from fishmeasure.base.words import wording
from fishmeasure.species import Species, load_species, species_keys
from fishmeasure.species.figure import Status
from fishmeasure.species.record import figures_of

REQUIRED = {
    "rainbow-trout",
    "brown-trout",
    "brook-trout",
    "arctic-char",
    "atlantic-salmon",
    "common-carp",
    "nile-tilapia",
    "barramundi",
    "silver-perch",
    "channel-catfish",
    "sea-bass",
    "perch",
}

OWN = """
common_name = "Tank A's trout"
latin_name = "Oncorhynchus mykiss"

[length_weight]
a_g_cm = 0.0151
b = 3.0
length_kind = "fork"
min_length_mm = 150
max_length_mm = 320
relative_sd = 0.03
residual_sd_ln = 0.08
b_sd = 0.05
stock = "farmed"
confidence = "high"
status = "seen"
source = "own weighings"

[shape.fork_per_total]
value = 0.96
relative_sd = 0.01
source = "own"
status = "seen"

[shape.standard_per_total]
value = 0.88
relative_sd = 0.02
source = "own"
status = "seen"

[shape.thickness_per_depth]
value = 0.5
relative_sd = 0.1
source = "own"
status = "seen"

[shape.depth_per_fork_length]
value = 0.25
relative_sd = 0.08
source = "own"
status = "seen"
"""


def write(folder: Path, text: str = OWN) -> str:
    path = folder / "tank-a.toml"
    path.write_text(text, encoding="utf-8")
    return str(path)


def at_cm(species: Species, length_cm: float, kind: str) -> float:
    """Return the median weight in grams at a length of that kind."""
    per_fork = {"FL": 1.0, "TL": species.shape.fork_per_total.value}[kind]
    line = species.on_fork_length()
    return line.a_g_cm * math.pow(length_cm * per_fork, line.b)


def test_the_species_that_the_job_names_are_there() -> None:
    """The grower finds the fish that are commonly kept."""
    assert set(species_keys()) >= REQUIRED


@pytest.mark.parametrize("key", species_keys())
def test_every_file_says_where_its_figures_come_from(key: str) -> None:
    """Sources and statuses are filled in; a figure from memory is never 'high'."""
    species = load_species(key)
    line = species.length_weight
    assert len(line.source) > 40
    assert species.family
    assert not species.is_own_stock
    for place, words, figure in figures_of(species):
        assert figure.source, place
        assert words[0].isupper(), place
        assert 0.0 <= figure.relative_sd < 1.0
    if line.status != "seen":
        assert line.confidence == "low"


def test_every_figure_of_the_record_is_read_somewhere() -> None:
    """A figure that no calculation reads is knowledge for nobody."""
    package = Path(fishmeasure.__file__).parent
    code = "".join(
        path.read_text(encoding="utf-8")
        for path in package.rglob("*.py")
        if path.parent.name != "species" or path.name in {"fit.py", "likeness.py"}
    )
    own = "".join(
        (package / "species" / name).read_text(encoding="utf-8")
        for name in ("record.py", "size.py", "water.py")
    )
    for place, _, _ in figures_of(load_species("rainbow-trout")):
        name = place.split(".")[-1]
        read = re.search(rf"\.{name}\b", code) or re.search(rf"self\.{name}\b", own)
        assert read, f"{place} is read by nothing"


@pytest.mark.parametrize("key", species_keys())
def test_every_book_level_carries_a_quarter_or_more(key: str) -> None:
    """Common practice, no source: a book's line is about 25 % off for a stock."""
    assert load_species(key).length_weight.relative_sd >= 0.25


@pytest.mark.parametrize("key", species_keys())
def test_shape_and_level_agree_within_what_fish_bodies_allow(key: str) -> None:
    """W = c depth thickness FL with c in the range of other bodies.

    Brofeldt 1917 gives 0.22 (bream) to 0.35 (pike) g/cm3 for seven species; an
    ellipsoid of density 1.03, fuller than any fish, 0.54. Fed fish are fuller than
    the wild ones of Brofeldt, so the upper limit is the ellipsoid.
    """
    species = load_species(key)
    depth = species.shape.depth_per_fork_length.value
    line = species.on_fork_length()
    length_cm = line.reference_length_mm / 10.0
    weight_g = line.a_g_cm * length_cm**line.b
    box = depth**2 * species.shape.thickness_per_depth.value * length_cm**3
    assert 0.20 < weight_g / box < 0.54


def test_conversion_to_fork_length_is_exact() -> None:
    """A fish of 20 cm TL weighs the same by TL and, as 19.42 cm, by FL."""
    species = load_species("brown-trout")
    published, line = species.length_weight, species.on_fork_length()
    assert published.length_kind == "total"
    by_total = published.a_g_cm * 20.0**published.b
    by_fork = line.a_g_cm * (20.0 * 0.971) ** line.b
    assert by_fork == pytest.approx(by_total, rel=1e-12)
    assert line.max_length_mm == pytest.approx(0.971 * published.max_length_mm)


def test_a_standard_length_line_converts_too(tmp_path: Path) -> None:
    """SL = (SL/TL) / (FL/TL) FL."""
    own = load_species(write(tmp_path, OWN.replace('"fork"', '"standard"')))
    line = own.on_fork_length()
    standard_cm = 24.0 * 0.88 / 0.96
    assert line.a_g_cm * 24.0**3 == pytest.approx(0.0151 * standard_cm**3)


# Standard weight equations log10 W = int + slope log10 TL (mm, g); Neumann et al.
# 2012, as in the shelf's 01_standard_weight_equations.csv. Ws is the 75th
# percentile of wild populations, so a wild mean line lies some 5-15 % below it
# (common practice, no source) and a farmed one about it or above.
STANDARD_WEIGHTS = {
    "brook-trout": (-5.186, 3.103),
    "brown-trout": (-4.867, 2.960),
    "channel-catfish": (-5.800, 3.294),
    "common-carp": (-4.639, 2.920),
    "lake-trout": (-5.681, 3.246),
    "rainbow-trout": (-4.898, 2.990),
    "bluegill": (-5.374, 3.316),
}


@pytest.mark.parametrize("key", STANDARD_WEIGHTS)
def test_lines_agree_with_the_standard_weight_within_the_books_error(key: str) -> None:
    """Within 1.645 x 0.25 at the middle of the range, as a book level may be."""
    species = load_species(key)
    intercept, slope = STANDARD_WEIGHTS[key]
    total_cm = (
        species.on_fork_length().reference_length_mm
        / 10
        / species.shape.fork_per_total.value
    )
    standard_g = 10 ** (intercept + slope * math.log10(total_cm * 10.0))
    ratio = at_cm(species, total_cm, "TL") / standard_g
    assert abs(math.log(ratio)) < 1.645 * 0.25


def test_standard_weight_of_a_30_cm_brown_trout() -> None:
    """Ws = 309.0 g (lentic, Hyatt & Hubert 2001); ours is farmed, mid-range."""
    ours = at_cm(load_species("brown-trout"), 30.0, "TL")
    assert ours == pytest.approx(309.0, rel=0.10)


@pytest.mark.shared
def test_ratios_of_perch_and_lake_trout_follow_from_the_fish(shared: Path) -> None:
    """Brofeldt 1917 (n=56) and Arctic LTER (n=86), means of the ratios."""
    folder = shared / "reference" / "datasets"
    with (folder / "finnish_159_fish.csv").open(encoding="utf-8") as stream:
        fish = [r for r in csv.DictReader(stream) if r["species_name"] == "perch"]

    def mean(numerator: str, denominator: str) -> float:
        ratios = [float(r[numerator]) / float(r[denominator]) for r in fish]
        return sum(ratios) / len(ratios)

    perch = load_species("perch")
    fork, total = "length_fork_cm", "length_total_cm"
    assert perch.shape.fork_per_total.value == pytest.approx(
        mean(fork, total), abs=0.001
    )
    standard = mean("length_std_cm", total)
    assert perch.shape.standard_per_total.value == pytest.approx(standard, abs=0.001)
    thickness = mean("width_pct_total", "height_pct_total")
    assert perch.shape.thickness_per_depth.value == pytest.approx(thickness, abs=0.001)
    depth = sum(
        float(r["height_pct_total"]) / 100 * float(r[total]) / float(r[fork])
        for r in fish
    ) / len(fish)
    assert perch.shape.depth_per_fork_length.value == pytest.approx(depth, abs=0.001)
    with (folder / "lake_trout_arctic_lter.csv").open(encoding="utf-8") as stream:
        fish = list(csv.DictReader(stream))
    lake_trout = load_species("lake-trout")
    assert lake_trout.shape.fork_per_total.value == pytest.approx(
        mean("fl", "tl"), abs=0.002
    )
    standard = mean("sl", "tl")
    assert lake_trout.shape.standard_per_total.value == pytest.approx(
        standard, abs=0.002
    )


@pytest.mark.parametrize("name", ["Rainbow trout", "rainbow_trout", " RAINBOW-TROUT "])
def test_names_are_forgiven_their_writing(name: str) -> None:
    """Capitals, spaces and underscores do not matter."""
    assert load_species(name).key == "rainbow-trout"


def test_an_unknown_species_suggests_a_near_one() -> None:
    """A slip of the keyboard gets the right name back."""
    with pytest.raises(UnknownSpeciesError, match="rainbow-trout") as caught:
        load_species("rainbow-truot")
    assert caught.value.close[0] == "rainbow-trout"
    with pytest.raises(UnknownSpeciesError, match="rainbow-trout"):
        load_species("trout")
    with pytest.raises(UnknownSpeciesError, match=r"Known are: arctic-char, .*\.toml"):
        load_species("zzz")


def test_an_own_stock_is_read_from_its_file(tmp_path: Path) -> None:
    """The file's name is the key, and the stock is marked as one's own."""
    own = load_species(write(tmp_path))
    assert (own.key, own.is_own_stock) == ("tank-a", True)
    assert own.length_weight.relative_sd == 0.03


def test_a_file_that_is_not_there_says_so(tmp_path: Path) -> None:
    """No traceback for a wrong path."""
    with pytest.raises(SpeciesFileError, match=r"gone\.toml.*no such file"):
        load_species(str(tmp_path / "gone.toml"))


def test_a_file_that_is_not_text_says_so(tmp_path: Path) -> None:
    """A photo given by mistake is refused in words."""
    path = tmp_path / "photo.toml"
    path.write_bytes(b"\xff\xd8\xff\xe0")
    with pytest.raises(SpeciesFileError, match="not text"):
        load_species(str(path))


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("a_g_cm = 0.0151", "a_g_cm = 15.1", r"length_weight: a_g_cm 15\.1 is outside"),
        ("a_g_cm = 0.0151", 'a_g_cm = "0.0151"', r"a_g_cm: must be a number"),
        ("a_g_cm = 0.0151", "a_g_cm = true", r"a_g_cm: must be a number"),
        ("b = 3.0", "", r"length_weight\.b: is missing"),
        ("b_sd = 0.05", "b_sd = nan", r"length_weight\.b_sd: must be"),
        ("b = 3.0", "b = 3.0\nB = 3.0", r"length_weight\.B'?: is not known"),
        ('"fork"', '"forklength"', r"length_kind: .*fork, total, standard"),
        ("max_length_mm = 320", "max_length_mm = 120", r"over min_length_mm"),
        ("value = 0.88", "value = 0.99", r"standard length cannot be over fork"),
        ("value = 0.25", "value = 2.5", r"depth_per_fork_length: 2\.5 is outside"),
        ("relative_sd = 0.08\n", "", r"depth_per_fork_length\.relative_sd: is missing"),
        (
            "relative_sd = 0.08",
            "sd = 0.02",
            r"depth_per_fork_length\.sd'?: is not known",
        ),
        ('"own weighings"', '" "', r"length_weight\.source: must be text"),
        ("fork_per_total]", "fork]", r"shape\.fork'?: is not known"),
        ("[shape.", "[shapes.", r"shapes: there is no such key; is shape meant"),
        ('"Tank A\'s trout"', "3", r"common_name: must be text"),
        ("[length_weight]", "length_weight", "not valid TOML"),
    ],
)
def test_a_wrong_file_names_the_key(
    tmp_path: Path, old: str, new: str, said: str
) -> None:
    """The message names the file, the key and what is wrong."""
    assert old in OWN
    path = write(tmp_path, OWN.replace(old, new))
    with pytest.raises(SpeciesFileError, match=said) as caught:
        load_species(path)
    assert "tank-a.toml" in str(caught.value)
    assert isinstance(caught.value, SpeciesError)


def test_a_section_must_be_a_table(tmp_path: Path) -> None:
    """A bare number instead of a table is refused in words."""
    text = "shape = 0.96\n" + OWN[: OWN.index("[shape.")]
    with pytest.raises(SpeciesFileError, match=r"shape: must be an object"):
        load_species(write(tmp_path, text))


FIRST_LAYOUT = """
[fork_per_total]
value = 0.96
source = "own"
status = "common-practice"

[standard_per_total]
value = 0.889
source = "lake trout"
status = "relative"

[thickness_per_depth]
value = 0.54
sd = 0.06
source = "whitefish"
status = "relative"

[depth_per_fork_length]
value = 0.25
sd = 0.025
source = "one fish"
status = "memory"
"""


def test_an_own_file_of_the_first_layout_is_still_read(tmp_path: Path) -> None:
    """As `fishmeasure fit` wrote it: its statuses in today's words, its sd relative."""
    text = OWN[: OWN.index("[shape.")] + FIRST_LAYOUT
    shape = load_species(write(tmp_path, text)).shape
    assert shape.fork_per_total.status == "practice"
    assert shape.standard_per_total.status == "stand-in"
    assert shape.thickness_per_depth.sd == pytest.approx(0.06)
    assert shape.depth_per_fork_length.sd == pytest.approx(0.025)
    with pytest.raises(SpeciesFileError, match=r"fork_per_total\.value: is missing"):
        load_species(write(tmp_path, text.replace("value = 0.96", "")))


def test_an_own_stock_is_of_its_species_in_all_else(tmp_path: Path) -> None:
    """Its water and growth are those of the fish with the same Latin name."""
    own = load_species(write(tmp_path))
    trout = load_species("rainbow-trout")
    assert (own.water, own.growth) == (trout.water, trout.growth)
    other = OWN.replace("Oncorhynchus mykiss", "Piscis ignotus")
    unknown = load_species(write(tmp_path, other))
    assert unknown.growth is None
    assert set(unknown.water.generic) >= {"do_act_mg_per_l", "feeding_low_deg_c"}


def test_every_species_says_on_how_many_real_photos_it_was_tested() -> None:
    """None is validated before real fish of known length were photographed."""
    for key in species_keys():
        photos = load_species(key).photos
        if photos.real_count == 0:
            assert photos.sentence.startswith("Not validated on photos.")
        else:
            assert photos.result
            assert f"on {photos.real_count} real photos" in photos.sentence


def test_the_page_of_the_species_has_the_words_of_the_statuses() -> None:
    """One vocabulary, in the code and for those who write a file."""
    page = Path(fishmeasure.__file__).parent / "species" / "README.md"
    text = page.read_text(encoding="utf-8")
    for status in get_args(Status):
        words = wording("origin", case=status, source="").removesuffix(": ")
        assert f"| {status} | {words} |" in text
