"""What several threads say for the first time at once, each says whole."""

import time
from concurrent.futures import ThreadPoolExecutor

import pytest

from fishmeasure.base.words import Message, catalogue, say


def test_a_sentence_is_said_while_another_thread_reads_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """It waits for all of it; a server answered with an error of its own."""
    parse = catalogue._Speaker._parse

    def slowly(speaker: catalogue._Speaker, name: str) -> None:
        time.sleep(0.05)
        parse(speaker, name)

    monkeypatch.setattr(catalogue._Speaker, "_parse", slowly)
    catalogue._speaker.cache_clear()
    speaker = catalogue._speaker
    said = Message.of("kept-oxygen", case="own")
    speaker(catalogue._voices(None)[0].language, catalogue._voices(None)[0].units)
    with ThreadPoolExecutor(4) as pool:
        found = set(pool.map(say, [said] * 4))
    assert len(found) == 1
    speaker.cache_clear()
