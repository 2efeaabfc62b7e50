"""``fishmeasure weigh``: a sample asked for net by net, or read from a table."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, Final, TypeVar

import typer

from fishmeasure.base.errors import (
    BadOptionError,
    FishMeasureError,
    NoNumberError,
    SampleFileError,
)
from fishmeasure.base.words import Message, wording
from fishmeasure.cli import options, output

if TYPE_CHECKING:
    from fishmeasure.cli.kept import Kept
    from fishmeasure.estimation.model import PopulationEstimate
    from fishmeasure.estimation.sample import Sample

BACK: Final = "-"
"""Typed in place of a count, it takes the last net back."""

_T = TypeVar("_T")


def weigh_command(
    sample: Annotated[
        Path,
        typer.Argument(
            metavar="SAMPLE.toml",
            help="help-weigh-sample",
        ),
    ],
    *,
    table: Annotated[
        Path | None,
        typer.Option(
            help="help-weigh-table",
        ),
    ] = None,
) -> None:
    """Ask for a sample net by net and write its file; each net is kept at once."""
    if sample.suffix.lower() != ".toml":
        wanted = Message.of("cli-wanted", case="sample-file")
        raise BadOptionError(options.THE_FILE, str(sample), wanted)
    if table is not None:
        _from_table(table, sample)
        return
    text = options.read_text(sample) if sample.exists() else _heading(sample)
    text = _nets(sample, text)
    if not _sample(text).nets:
        return
    if typer.confirm(wording("cli-weigh-ask", case="now"), default=True):
        from fishmeasure.cli.sample import sample_command

        sample_command(sample)
        return
    typer.echo(wording("cli-weigh-later", file=sample))


def _from_table(table: Path, sample: Path) -> None:
    from fishmeasure.estimation.sample_table import sample_from_table
    from fishmeasure.estimation.sample_text import sample_text

    if sample.exists():
        wanted = Message.of("cli-wanted", case="new-file")
        raise BadOptionError(options.THE_FILE, str(sample), wanted)
    read = sample_from_table(options.read_text(table))
    output.write_bytes(sample, sample_text(read).encode())
    typer.echo(wording("cli-weigh-taken", nets=len(read.nets), file=sample))


def _heading(path: Path) -> str:
    """Ask for what all nets have in common, and keep what is usual for this grower."""
    from fishmeasure.cli.kept import keep, kept, usual_species
    from fishmeasure.estimation.sample_text import pairs, toml_table

    usual = kept()
    typer.echo(wording("cli-weigh-new", file=path))
    today = options.read_day("date", None)
    common = {
        "date": _ask("date", _read_day, today.isoformat()),
        "unit": _ask("unit", str.strip, ""),
        "species": _ask("species", _read_species, usual_species(None)),
        "count_in_unit": _ask("count", _read_count, ""),
    }
    habits = _habits(usual)
    if habits != usual:
        keep(habits)
    return "\n".join(
        [
            pairs({name: value for name, value in common.items() if value}),
            toml_table("scale", {"resolution_g": habits.scale_resolution_g}),
            toml_table("drip", {"wet_tare": habits.wet_tare}),
        ]
    )


def _habits(usual: "Kept") -> "Kept":
    """Ask for what is the same each time, once."""
    step_g, wet = usual.scale_resolution_g, usual.wet_tare
    if step_g is None:
        step_g = _ask("scale", lambda text: _read_weight(text, "g"), "1")
    if wet is None:
        wet = typer.confirm(wording("cli-weigh-ask", case="wet-tare"), default=True)
    return replace(usual, scale_resolution_g=step_g, wet_tare=wet)


# --- the nets ------------------------------------------------------------------------


def _nets(path: Path, text: str) -> str:
    """Ask for nets until there are no more; return the file's text."""
    from fishmeasure.cli.kept import kept

    unit = kept().typed_in
    before: list[str] = []
    while True:
        number = len(_sample(text).nets) + 1
        fish = _ask("fish", _read_fish, "", number=number)
        if fish is None:
            return text
        if fish == 0:
            text = before.pop() if before else _nothing_back(text)
            _write(path, text)
            continue
        try:
            grown = _with_net(text, path.parent, fish, unit)
            _sample(grown)
        except SampleFileError as error:
            typer.echo(f"{error.message} {error.advice}", err=True)
            continue
        _write(path, grown)
        if _right(grown):
            before.append(text)
            text = grown
        else:
            _write(path, text)


def _with_net(text: str, folder: Path, fish: int, unit: str) -> str:
    """Ask for the rest of a net and return the file's text with it."""
    from fishmeasure.estimation.sample_text import net_text

    nets = _sample(text).nets
    number = len(nets) + 1
    gross = _ask("gross", _several(_weight_or_none(unit)), "", number=number, unit=unit)
    net: dict[str, Any] = {"fish": fish}
    if gross:
        tares = [one.tare_g for one in nets if one.tare_g is not None]
        usual = f"{tares[-1]:g} g" if tares else ""
        net["gross_g"] = gross[0] if len(gross) == 1 else gross
        net["tare_g"] = _ask("tare", _weight_or_none(unit), usual, unit=unit) or 0.0
    used = {photo for one in nets for photo in one.photos}
    net["photos"] = _ask("photos", _several(_photo_of(folder, used)), "")
    net["label"] = _ask("label", str.strip, "")
    return text + net_text({name: value for name, value in net.items() if value != ""})


def _nothing_back(text: str) -> str:
    typer.echo(wording("cli-weigh-no-back"), err=True)
    return text


def _right(text: str) -> bool:
    """Tell what the nets say so far; return whether the last one is right as it is."""
    from fishmeasure.estimation.slips import likely_slips

    sample = _sample(text)
    last = sample.weighings[-1]
    if last.weight_g is not None:
        typer.echo(
            wording(
                "cli-weigh-net",
                net=last.label,
                fish_count=last.fish_count,
                weight_g=last.weight_g,
                mean_g=last.weight_g / last.fish_count,
            )
        )
    estimate = _estimate(sample)
    doubts = likely_slips(sample.weighings)
    if estimate is not None:
        doubts += estimate.problems
    for doubt in doubts:
        if dict(doubt.parameters or ()).get("net") == last.label:
            typer.echo(doubt.message, err=True)
            return typer.confirm(wording("cli-weigh-ask", case="right"), default=False)
    if estimate is not None:
        from fishmeasure.cli.sample import one_more

        mean = output.grams(estimate.mean_weight_g)
        typer.echo(wording("cli-weigh-so-far", mean=mean) + " " + one_more(estimate))
    return True


def _estimate(sample: "Sample") -> "PopulationEstimate | None":
    """Return what the weighings alone say; None where they are too few."""
    from fishmeasure.cli.kept import usual_species
    from fishmeasure.estimation.model import estimate_population
    from fishmeasure.species import load_species

    nets = tuple(net for net in sample.weighings if net.weight_g is not None)
    if len(nets) < 2:
        return None
    return estimate_population(
        nets,
        published=load_species(usual_species(sample.species)).on_fork_length(),
        settings=sample.settings,
        count_in_unit=sample.count_in_unit,
    )


def _sample(text: str) -> "Sample":
    from fishmeasure.estimation.sample import read_sample

    return read_sample(text, begun=True)


def _write(path: Path, text: str) -> None:
    output.write_bytes(path, text.encode())


# --- questions, and how their answers are read ---------------------------------------


def _ask(
    case: str, read: Callable[[str], _T], usual: str, **parameters: str | int
) -> _T:
    """Ask until the answer can be read."""
    question = wording("cli-weigh-ask", case=case, **parameters)
    while True:
        text = typer.prompt(question, default=usual, show_default=bool(usual))
        try:
            return read(str(text).strip())
        except FishMeasureError as error:
            typer.echo(f"{error.message} {error.advice}".rstrip(), err=True)


def _several(read: Callable[[str], _T | None]) -> Callable[[str], list[_T]]:
    """Return a reader of answers parted by semicolons; none where nothing stands."""

    def all_of(text: str) -> list[_T]:
        found = [read(part.strip()) for part in text.split(";") if part.strip()]
        return [one for one in found if one is not None]

    return all_of


def _read_day(text: str) -> date:
    return options.read_day("date", text)


def _read_species(text: str) -> str:
    from fishmeasure.species import load_species

    load_species(text)  # refused where it is none
    return text


def _read_count(text: str) -> int | None:
    from fishmeasure.base.typed import typed_number

    if not text:
        return None
    number = typed_number(text)
    if number < 1 or not number.is_integer():
        raise NoNumberError(given=text)
    return int(number)


def _read_fish(text: str) -> int | None:
    """Return the count; 0 where the last net is to be taken back, None at the end."""
    return 0 if text == BACK else _read_count(text)


def _read_weight(text: str, unit: str) -> float:
    from fishmeasure.base.typed import typed_weight_g

    weight_g = typed_weight_g(text, unit)
    if weight_g <= 0.0:
        raise NoNumberError(given=text)
    return weight_g


def _weight_or_none(unit: str) -> Callable[[str], float | None]:
    return lambda text: _read_weight(text, unit) if text else None


def _photo_of(folder: Path, used: set[str]) -> Callable[[str], str]:
    """Return what takes a photo's name: one that is there, of no other net."""

    def read(name: str) -> str:
        if not (folder / name).is_file():
            raise BadOptionError(
                Message.of("cli-the-photo"),
                name,
                Message.of("cli-wanted", case="there"),
            )
        if name in used:
            wanted = Message.of("cli-wanted", case="own-photo")
            raise BadOptionError(Message.of("cli-the-photo"), name, wanted)
        return name

    return read
