"""The catalogue of sentences: what the program says, in any language.

A message is a code with parameters; a language is a file beside this one, in Project
Fluent's syntax. DEVELOPERS.md tells how to add a sentence.
"""

from fishmeasure.base.words.catalogue import (
    advice,
    can_say,
    meaning,
    say,
    what,
    wording,
)
from fishmeasure.base.words.figures import (
    cautious,
    number,
    percent,
    share_used,
    shell_word,
    span,
)
from fishmeasure.base.words.message import (
    NOTHING,
    Message,
    Parameters,
    Reason,
    Value,
)
from fishmeasure.base.words.system import system_reason
from fishmeasure.base.words.voice import NEUTRAL, Voice, set_voice, speaking, voice

__all__ = [
    "NEUTRAL",
    "NOTHING",
    "Message",
    "Parameters",
    "Reason",
    "Value",
    "Voice",
    "advice",
    "can_say",
    "cautious",
    "meaning",
    "number",
    "percent",
    "say",
    "set_voice",
    "share_used",
    "shell_word",
    "span",
    "speaking",
    "system_reason",
    "voice",
    "what",
    "wording",
]
