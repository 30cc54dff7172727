"""What a narration comes to: for every step told, the statements it may stand for; what became of each sentence."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, NamedTuple

from .statements import Marking, Mentioned, Span, Step

if TYPE_CHECKING:
    from .gathering import Gatherer


class Heard(NamedTuple):
    """A word that was taken by its sound."""

    span: Span
    found: str
    meant: str


@dataclass(frozen=True)
class Reading:
    """One step told, or one sentence that makes a claim which could not be taken in (no alternatives).

    ``alternatives``: the most literal first; each is the steps that the words stand for (mostly one). ``forced``: the words
    leave no other reading, so that what does not hold may be held against them. ``marking``: candidates are marked, and nothing
    is claimed. ``mentioned``: all that its sentences name; ``extent``: where they begin and
    end in the script's text.
    """

    alternatives: tuple[tuple[Step, ...], ...]
    span: Span
    text: str = ""
    time: float | None = None
    sentences: tuple[int, ...] = ()
    forced: bool = True
    marking: Marking | None = None
    mentioned: Mentioned = field(default_factory=Mentioned)
    extent: tuple[int, int] = (0, 0)


class Passed(NamedTuple):
    """A sentence that was taken for talk though it says something of what it names."""

    sentence: int
    span: Span
    text: str
    time: float | None
    mentioned: Mentioned


@dataclass
class Sentences:
    """How many sentences there are of each kind."""

    total: int = 0
    claims: int = 0
    talk: int = 0
    unread: int = 0


@dataclass(frozen=True)
class Narration:
    """All readings in order, for every sentence what it is (``claim``, ``talk`` or ``unread``), and words taken by sound.

    ``passed``: the talk that may have been a claim. ``gatherer``: puts together what the sentences name, where the readings do
    not hold.
    """

    readings: tuple[Reading, ...]
    kinds: tuple[str, ...] = field(default=())
    heard: tuple[Heard, ...] = ()
    passed: tuple[Passed, ...] = ()
    gatherer: Gatherer | None = None
