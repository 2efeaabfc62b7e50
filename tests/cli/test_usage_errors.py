"""A wrong command line is answered in one plain line with a way forward."""

import sys

import pytest

from fishmeasure import cli


def said(monkeypatch: pytest.MonkeyPatch, words: str) -> int:
    monkeypatch.setattr(sys, "argv", ["fishmeasure", *words.split()])
    with pytest.raises(SystemExit) as caught:
        cli.main()
    return int(caught.value.code or 0)


@pytest.mark.parametrize(
    ("words", "reason", "advice"),
    [
        (
            "bogus",
            "There is no command 'fishmeasure bogus'.",
            "'fishmeasure --help' lists them.",
        ),
        ("photos", "no command", "Did you mean 'fishmeasure photo'?"),
        ("units", "no command", "Did you mean 'fishmeasure book units'?"),
        ("a1.jpg", "no command", "Did you mean 'fishmeasure photo a1.jpg'?"),
        ("my.toml", "no command", "Did you mean 'fishmeasure sample my.toml'?"),
        ("book my.toml", "no command", "'fishmeasure book --help' lists them."),
        ("book enties", "no command", "Did you mean 'fishmeasure book entries'?"),
        (
            "--bogus",
            "'fishmeasure' has no option --bogus.",
            "'fishmeasure --help' shows the options.",
        ),
        (
            "photo a.jpg --specis trout",
            "'fishmeasure photo' has no option --specis.",
            "Did you mean --species",
        ),
        ("book units --bok x", "no option --bok", "Did you mean --book?"),
        ("photo", "'fishmeasure photo' needs PHOTOS", "photo --help"),
        ("feed perch", "needs --mean-weight (Mean weight", "feed --help"),
        ("photo --species", "needs a value after --species", "photo --help"),
        ("sheet --all=3", "--all takes no value", "sheet --help"),
        ("species a b", "does not take 'b'", "species --help"),
        ("photo a.jpg --print-scale x", "--print-scale: it takes a number", "--help"),
        ("plan --fish-per-net 2.5", "it takes a whole number", "plan --help"),
        ("plan --level 7", "--level: it takes ", "plan --help"),
        ("sheet poster", "KIND: 'poster' is not one of 'sheet'", "sheet --help"),
    ],
)
def test_a_slip_is_one_line(
    words: str,
    reason: str,
    advice: str,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """What is wrong, what was meant or where to look, status 2."""
    assert said(monkeypatch, words) == cli.output.STATUS_UNUSABLE_INPUT
    shown = capsys.readouterr().err
    assert reason in shown
    assert advice in shown
    assert shown.startswith("fishmeasure: ")
    assert shown.count("\n") == 1


@pytest.mark.parametrize("words", ["", "book"])
def test_without_a_command_they_are_listed(
    words: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Not knowing the commands is no usage error: all are shown."""
    said(monkeypatch, words)
    shown = "".join(capsys.readouterr())
    assert ("entries" if words else "outlook") in shown
    assert "There is no" not in shown
