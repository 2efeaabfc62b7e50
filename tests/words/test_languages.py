"""A second language is one file: everything that is said is said in it.

The language is made here out of the English file: every text is turned to capitals and
put between marks, so that what is not in the catalogue shows.
"""

import datetime as dt
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import typer
from fluent.syntax import FluentParser, FluentSerializer, ast
from starlette.testclient import TestClient

from api.app import create_app
from api.settings import Settings
from fishmeasure.base.errors import NoMarkerError, TooTiltedError
from fishmeasure.base.flags import Problem
from fishmeasure.base.record import plain, read
from fishmeasure.base.words import (
    Message,
    Voice,
    catalogue,
    compiled,
    say,
    sources,
    speaking,
)
from fishmeasure.base.words.voice import accepted, of_locale
from fishmeasure.cli.batch import measure_paths
from fishmeasure.outlook.unit import unit_outlook
from fishmeasure.pipeline import PhotoSettings
from fishmeasure.render.now_words import head
from fishmeasure.render.outlook_words import heading, sections
from fishmeasure.store.demo import demo_book

GERMAN = "de"  # for its decimal comma; nobody speaks this one
ROMAN = Voice(language=GERMAN)


@cache
def turned(text: str) -> str:
    """Return an English file in capitals between marks."""
    resource = FluentParser().parse(text)
    for entry in resource.body:
        if isinstance(entry, ast.Message | ast.Term) and entry.value is not None:
            _capitals(entry)
    return FluentSerializer().serialize(resource)


def _capitals(entry: Any) -> None:
    if entry.id.name == "day-format":
        entry.value.elements[0].value = "dd.MM.yyyy"
        return
    for pattern in [entry.value, *(item.value for item in entry.attributes)]:
        for element in _texts(pattern):
            element.value = element.value.upper()


def _texts(node: Any) -> Iterator[ast.TextElement]:
    if isinstance(node, ast.TextElement):
        yield node
    elif isinstance(node, ast.BaseNode):
        for item in vars(node).values():
            yield from _texts(item)
    elif isinstance(node, list):
        for item in node:
            yield from _texts(item)


@pytest.fixture
def roman(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Voice]:
    """Add the language, by one file beside the English one."""
    english = (sources.FOLDER / "en.ftl").read_text("utf-8")
    (tmp_path / "en.ftl").write_text(english, "utf-8")
    (tmp_path / "de.ftl").write_text(turned(english), "utf-8")
    monkeypatch.setattr(sources, "FOLDER", tmp_path)
    kept = (sources.languages, sources.entries, catalogue._speaker, compiled.parsed)
    for made in kept:
        made.cache_clear()
    yield ROMAN
    for made in kept:
        made.cache_clear()


def test_a_sentence_is_said_in_it(roman: Voice) -> None:
    """With its decimal comma and its way to write a day."""
    error = TooTiltedError("a.jpg", 41.6, 30.0)
    assert say(error.said, roman).startswith("a.jpg WAS TAKEN AT 42 DEGREES")
    apart = Message.of("markers-disagree", name="a.jpg", rms_mm=1.26)
    assert "(OFF BY 1,3 MM)" in say(apart, roman)
    future = Message.of("future-day", on="2026-05-02", today="2026-05-01")
    assert say(future, roman).startswith("02.05.2026 IS IN THE FUTURE")
    assert str(error).startswith("a.jpg was taken at 42 degrees"), "for logs"


def test_what_it_lacks_is_said_in_english(roman: Voice, tmp_path: Path) -> None:
    text = (tmp_path / "de.ftl").read_text("utf-8")
    without = re.sub(r"^no-marker =.*\n(    .*\n)*", "", text, flags=re.MULTILINE)
    (tmp_path / "de.ftl").write_text(without, "utf-8")
    sources.entries.cache_clear()
    told = say(Message.of("no-marker", name="a.jpg"), roman)
    assert told.startswith("No calibration marker can be seen in a.jpg")


def test_a_problem_is_said_in_the_language_of_whoever_reads_it(roman: Voice) -> None:
    """What is kept has code and parameters, so that it can be said again."""
    problem = Problem.of_error(NoMarkerError("a.jpg"), fatal=True)
    kept = plain(problem)
    assert kept["message"].startswith("No calibration marker can be seen in a.jpg")
    with speaking(roman):
        again = read(Problem, kept)
        assert again == problem
        assert again.message.startswith("NO CALIBRATION MARKER CAN BE SEEN IN a.jpg")
        assert plain(again)["message"] == again.message


def test_a_problem_kept_as_a_sentence_is_read_as_it_was(roman: Voice) -> None:
    """By a version that kept no parameters, or other ones than today's."""
    old = {"code": "no-marker", "message": "No marker.", "fatal": True}
    other = old | {"parameters": {"photo": "a.jpg"}}
    with speaking(roman):
        for kept in (old, other):
            assert read(Problem, kept).message == "No marker."


@pytest.mark.usefixtures("roman")
def test_the_server_answers_in_it(tmp_path: Path) -> None:
    """By ``?language=``, else by the header; with the code and the parameters."""
    settings = Settings(book=str(tmp_path / "b.sqlite"), data_dir=tmp_path)
    with TestClient(create_app(settings), base_url="http://localhost") as client:
        path = "/v1/units/5f0c0b5e-0000-4000-8000-000000000001/outlook"
        english = client.get(path)
        asked = client.get(
            path, headers={"Accept-Language": "fr, de-AT;q=0.8, en;q=0.2"}
        )
        told = client.get(f"{path}?language=de")
    assert english.headers["Content-Language"] == "en"
    assert "Accept-Language" in asked.headers["Vary"]
    assert asked.headers["Content-Language"] == "de"
    assert asked.json() == told.json()
    assert asked.json()["code"] == english.json()["code"] == "unknown-record"
    assert asked.json()["parameters"] == english.json()["parameters"]
    assert asked.json()["message"].startswith("THE BOOK HAS NO")
    assert english.json()["message"].startswith("The book has no")


SAMPLE = {"date": "2026-05-02", "nets": []}
SAMPLE_AT = "/v1/samples/5f0c0b5e-0000-4000-8000-000000000002"


@pytest.mark.usefixtures("roman")
@pytest.mark.parametrize(
    ("method", "path", "sent", "status", "said"),
    [
        ("GET", "/v1/nowhere", None, 404, "THERE IS NOTHING AT THIS ADDRESS."),
        ("PATCH", "/v1/units", None, 405, "THIS ADDRESS DOES NOT TAKE PATCH."),
        ("GET", "/v1/photos/none", None, 404, "THE BOOK HAS NO PHOTO none."),
        ("GET", "/v1/species/none", None, 404, "THERE IS NO SPECIES 'none'."),
        ("POST", "/v1/import", {"format": "x"}, 422, "THE DOCUMENT CANNOT BE IMPORTED"),
        ("PUT", SAMPLE_AT, {"nets": []}, 422, "date IS MISSING."),
        (
            "POST",
            "/v1/devices",
            {"code": 5, "name": "a"},
            422,
            "code MUST BE TEXT, NOT 5.",
        ),
        ("PUT", SAMPLE_AT, SAMPLE, 200, "THERE IS NO NET IN THIS SAMPLE YET."),
    ],
)
def test_whatever_the_server_answers_is_in_it(
    tmp_path: Path, method: str, path: str, sent: Any, status: int, said: str
) -> None:
    """Also what is kept: it is said anew to whoever reads it."""
    settings = Settings(book=str(tmp_path / "b.sqlite"), data_dir=tmp_path)
    with TestClient(create_app(settings), base_url="http://localhost") as client:
        told = client.request(
            method, path, json=sent, headers={"Accept-Language": "de"}
        )
        assert told.status_code == status, told.text
        if status == 200:
            english = client.get(path)
            assert english.json()["problems"][0]["message"].startswith(
                "There is no net"
            )
            told = client.get(path, headers={"Accept-Language": "de"})
    body = told.json()
    problem = body["problems"][0] if status == 200 else body
    assert problem["message"].startswith(said)


@pytest.mark.usefixtures("roman")
def test_the_command_line_speaks_it(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """By its option, else by the locale."""
    from fishmeasure.cli import main

    for argv, locale in (
        (["--language", "de", "explain", "no-such"], "en_GB.UTF-8"),
        (["explain", "no-such"], "de_AT.UTF-8"),
        (["explain", "no-such"], "en_GB.UTF-8"),
    ):
        monkeypatch.setattr("sys.argv", ["fishmeasure", *argv])
        monkeypatch.setenv("LC_ALL", locale)
        with pytest.raises(SystemExit), speaking(Voice()):
            main()
    told = capsys.readouterr().err.splitlines()
    assert [line.split("'")[0] for line in told] == [
        "fishmeasure: THERE IS NO CODE ",
        "fishmeasure: THERE IS NO CODE ",
        "fishmeasure: There is no code ",
    ]


def commands() -> Iterator[tuple[str, ...]]:
    """Yield each command, as it is typed."""
    from fishmeasure.cli import app

    found: list[tuple[tuple[str, ...], Any]] = [((), typer.main.get_command(app))]
    for words, command in found:
        below = getattr(command, "commands", {})
        found += [((*words, name), inner) for name, inner in below.items()]
        if not below:
            yield words


@pytest.mark.usefixtures("roman")
@pytest.mark.parametrize("by", ["option", "locale"])
def test_every_command_speaks_it(
    by: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """What the parser refuses, before any work of the command."""
    from fishmeasure.cli import main

    option = ["--language", "de"] if by == "option" else []
    monkeypatch.setenv("LC_ALL", "C" if by == "option" else "de_AT.UTF-8")
    for words in commands():
        argv = ["fishmeasure", *option, *words, "--no-such"]
        monkeypatch.setattr("sys.argv", argv)
        with pytest.raises(SystemExit):
            main()
        said = f"fishmeasure: 'fishmeasure {' '.join(words)}' HAS NO OPTION --no-such."
        assert capsys.readouterr().err.startswith(said)


@pytest.mark.usefixtures("roman")
def test_what_a_batch_writes_is_in_it(tmp_path: Path) -> None:
    """Its photos are measured by other processes, which have no voice of their own."""
    path = str(tmp_path / "none.jpg")
    (line,) = measure_paths((path,), PhotoSettings(), full=True, speaks=ROMAN)
    said = "none.jpg WAS NOT MEASURED: NO SUCH FILE OR DIRECTORY."
    assert line["problems"][0]["message"].startswith(said)


@pytest.mark.usefixtures("roman")
@pytest.mark.parametrize(
    ("header", "language"),
    [
        ("", "en"),
        ("de", "de"),
        ("de-CH, en;q=0.9", "de"),
        ("en, de;q=0.9", "en"),
        ("fr", "en"),
        ("de;q=0, en", "en"),
        ("de;q=x", "en"),
        ("*", "en"),
    ],
)
def test_the_best_liked_language_is_taken(header: str, language: str) -> None:
    """RFC 9110, 12.5.4: weights from 0 to 1, 0 is not wanted."""
    assert accepted(header) == language


@pytest.mark.usefixtures("roman")
def test_the_locale_is_read_as_posix_has_it() -> None:
    """LC_ALL before LC_MESSAGES before LANG (POSIX, XBD 8.2)."""
    assert of_locale({"LANG": "de_DE.UTF-8"}) == "de"
    assert of_locale({"LANG": "de_DE.UTF-8", "LC_ALL": "C"}) == "en"
    assert of_locale({"LC_MESSAGES": "de", "LANG": "en_US"}) == "de"
    assert of_locale({}) == "en"


NAMED = re.compile(
    r"rainbow trout|Arctic char|(Trout|Char) of the spring|battery pump|blower"
)
"""What growers call things, and species, whose names another language has itself."""
OWN_TEXTS = re.compile(r"Samples up to .*|Counted on .*")
"""Where a weight or a count comes from; the book's own words so far."""


def test_an_outlook_is_wholly_said_in_it(roman: Voice) -> None:
    """No sentence of it stands in the code; sources are quoted as they are."""
    day = dt.date(2026, 5, 2)
    book = demo_book(day)
    with speaking(roman):
        for unit in book.units:
            found = unit_outlook(
                book.units, book.cohorts, book.entries, unit_id=unit.id, on=day
            )
            first = head(found)
            lines = [heading(found), first.headline, first.do_now, *first.lines]
            lines += [line for part in sections(found) for line in part.lines]
            lines += [part.title for part in sections(found)]
            lines += [str(caution) for caution in found.cautions]
            for line in lines:
                ours = OWN_TEXTS.sub("", NAMED.sub("", line))
                assert not re.search(r"[a-z]{2,} [a-z]{2,}", ours), line
