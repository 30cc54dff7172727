"""How a pattern is said: its name, and the words that introduce its parts.

A form is data. The pattern catalogue gives the reader one form a pattern, so a new pattern needs no change to the grammar.
"""

from __future__ import annotations

import re
from typing import NamedTuple


class SlotForm(NamedTuple):
    """One part of a pattern: the word before it and what it holds.

    ``word``: one of ``SLOT_WORDS``, or empty for what follows the name directly.
    ``kind``: ``digit``, ``cell``, ``house``, ``turns`` (digit, cell, digit, cell ...), ``link`` or ``fact``.
    """

    word: str
    kind: str


class Form(NamedTuple):
    """A pattern's canonical name, its parts in canonical order, and other names the trade has for it."""

    name: str
    slots: tuple[SlotForm, ...] = ()
    aliases: tuple[str, ...] = ()

    @property
    def body(self) -> str:
        """``links`` or ``facts`` where the parts are of that kind alone, else ``slots``."""
        kinds = {slot.kind for slot in self.slots}
        return "links" if kinds == {"link"} else "facts" if kinds == {"fact"} else "slots"


SLOT_WORDS = {
    "on": r"on\b",
    "in": r"in\b",
    "at": r"at\b",
    ":": r":",
    "cover": r"cover(s|ing)?\b",
    "fins": r"fins?\b",
    "pivot": r"pivot\b",
    "wings": r"wings?\b",
    "along": r"along\b",
    "within": r"within\b",
}
"""The words that introduce a part, with the spellings accepted."""


_JOINTS = "\\s\\-\N{HYPHEN}\N{NON-BREAKING HYPHEN}\N{EN DASH}"


def name_key(name: str) -> str:
    """A name without case, spaces and hyphens or dashes: ``X-Wing``, ``x wing`` and ``xwing`` are one name."""
    return re.sub(rf"[{_JOINTS}]+", "", name.lower())


def name_pattern(name: str) -> str:
    """A regular expression for the name, spaces and hyphens being free."""
    return rf"[{_JOINTS}]*".join(map(re.escape, re.split(r"[\s-]+", name))) + r"(?![\w-])"
