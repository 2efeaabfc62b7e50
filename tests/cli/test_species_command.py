"""``fishmeasure species`` as a grower sees it."""

import sys

import pytest
from typer.testing import CliRunner

from fishmeasure import cli
from fishmeasure.species import load_species, species_keys
from fishmeasure.species.record import figures_of


@pytest.fixture
def runner(monkeypatch: pytest.MonkeyPatch) -> CliRunner:
    monkeypatch.setenv("COLUMNS", "160")
    return CliRunner()


def test_the_table_lists_every_species(runner: CliRunner) -> None:
    """With the condition factor by which a grower knows his fish."""
    result = runner.invoke(cli.app, ["species"])
    assert result.exit_code == 0
    for key in species_keys():
        assert key in result.output
    trout = next(x for x in result.output.splitlines() if "rainbow-trout" in x)
    assert "1.38" in trout


@pytest.mark.parametrize("key", species_keys())
def test_one_species_shows_its_sources(runner: CliRunner, key: str) -> None:
    """Each figure is on the screen with its source and status, and the photos."""
    result = runner.invoke(cli.app, ["species", key])
    shown = " ".join(result.output.split())
    assert result.exit_code == 0
    assert load_species(key).length_weight.source in shown
    for _, words, figure in figures_of(load_species(key)):
        assert f"{words}: {figure.value:g}" in shown
        assert figure.origin in shown
    assert load_species(key).photos.sentence in shown


def test_an_unknown_species_is_one_clear_line_and_status_2(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """No traceback; the near name is given."""
    monkeypatch.setattr(sys, "argv", ["fishmeasure", "species", "brown-truot"])
    with pytest.raises(SystemExit) as caught:
        cli.main()
    assert caught.value.code == cli.output.STATUS_UNUSABLE_INPUT
    shown = capsys.readouterr().err
    assert shown.startswith('fishmeasure: There is no species "brown-truot". Is brown-')
    assert shown.count("\n") == 1
