"""A spreadsheet's table of nets says what SAMPLE.toml says."""

import datetime as dt

import pytest

from fishmeasure.base.errors import SampleFileError
from fishmeasure.estimation.sample import Sample, read_sample
from fishmeasure.estimation.sample_table import sample_from_table
from fishmeasure.estimation.sample_text import sample_text

TOML = """
date = 2026-05-02
unit = "Tank A"
species = "rainbow-trout"
count_in_unit = 1420

[[net]]
fish = 8
gross_kg = 1.912
tare_g = 640
photos = ["a1.jpg", "a 2.jpg"]
label = "by the inlet"

[[net]]
fish = 9
net_kg = 1.4312

[[net]]
fish = 2
lengths_mm = [250.5, 262]
"""
ENGLISH = """\
Date,Unit,Species,Count in unit,Fish,Gross (kg),Tare (g),Net kg,Photos,Lengths mm,Label
2026-05-02,Tank A,rainbow-trout,"1,420.0",8,1.912,640,,a1.jpg|a 2.jpg,,by the inlet
,,,,9,,,1.4312,,,
,,,,2,,,,,250.5 | 262,
"""
GERMAN = """\
date;unit;species;count_in_unit;fish;gross_kg;tare_g;net_kg;photos;lengths_mm;label
2.5.2026;Tank A;rainbow-trout;1420;8;1,912;640;;a1.jpg|a 2.jpg;;by the inlet
;;;;9;;;1,4312;;;
2026-05-02;Tank A;;;2;;;;;"250,5; 262";

"""


@pytest.mark.parametrize(
    "text",
    [
        ENGLISH,
        GERMAN,
        "\ufeff" + GERMAN.replace("\n", "\r\n"),  # as spreadsheets save it
        ENGLISH.replace(",", "\t").replace('"1\t420.0"', "1420"),
    ],
)
def test_a_table_says_what_the_file_says(text: str) -> None:
    assert sample_from_table(text) == read_sample(TOML)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("fish,gros_g\n8,1912\n", "gros_g is no column of a table of nets; is gross_g"),
        ("fish,fish\n8,8\n", "fish stands in the heading twice"),
        ("fish,net_g\n8,12 or 13\n", "line 2, net_g is '12 or 13'"),
        ("fish;net_g\n8;1.250\n", "write 1250 or 1,250"),
        ("fish,net_g\n8,1912,7\n", "line 2 it has more cells than the heading"),
        ("fish,net_g,unit\n8,1,A\n8,1,B\n", "unit is A in one row and B in line 3"),
        ("fish,net_g,date\n8,1,5/2/26\n", "'5/2/26' is no day"),
        ("fish,net_g,date\n8,1,31.2.2026\n", "'31.2.2026' is no day"),
        ('fish,net_g\n8,"12\n', "no CSV"),
        ("fish,net_g\n8.5,1200\n", "fish"),
        ("fish,net_g\n", "[[net]]"),
        ("", "[[net]]"),
    ],
)
def test_what_cannot_be_is_told_with_its_place(text: str, words: str) -> None:
    with pytest.raises(SampleFileError) as refused:
        sample_from_table(text)
    assert words in refused.value.message


def test_points_alone_are_decimals_where_some_can_be_nothing_else() -> None:
    table = "fish;gross_kg;tare_kg\n8;1.912;0.640\n9;2.05;0.640\n"
    assert sample_from_table(table).nets[0].gross_g == (1912.0,)


@pytest.mark.parametrize("text", [TOML, "[[net]]\nfish = 3\nnet_g = [410, 411]\n"])
def test_a_file_that_is_written_says_the_same(text: str) -> None:
    sample = read_sample(text)
    assert read_sample(sample_text(sample)) == sample


def test_quotes_and_odd_marks_survive_being_written() -> None:
    sample = read_sample('unit = "A \\"b\\" \\\\ ü"\n[[net]]\nfish = 1\nnet_g = 5.25\n')
    assert isinstance(sample, Sample)
    assert read_sample(sample_text(sample)) == sample
    assert sample.date is None or isinstance(sample.date, dt.date)
