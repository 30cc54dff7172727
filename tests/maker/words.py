"""What a statement says, word by word; ``str`` of any of these is how it is written."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from .board import Geometry, House

LONG = {"r": "row", "c": "column", "b": "box"}


@dataclass(frozen=True)
class Cells:
    """``r4c7``, ``r4c28`` or ``r46c2``."""

    rows: tuple[int, ...]
    columns: tuple[int, ...]
    upper: bool = False

    def __str__(self) -> str:
        """As it is written."""
        word = f"r{''.join(map(str, self.rows))}c{''.join(map(str, self.columns))}"
        return word.upper() if self.upper else word

    def on(self, geometry: Geometry) -> list[int]:
        """The cells meant."""
        return [geometry.cell(row, column) for row in self.rows for column in self.columns]


@dataclass(frozen=True)
class Named:
    """A house: ``b4`` or ``box 4``."""

    kind: str
    number: int
    long: bool = False

    def __str__(self) -> str:
        """As it is written."""
        return f"{LONG[self.kind]} {self.number}" if self.long else f"{self.kind}{self.number}"

    @property
    def house(self) -> House:
        """The house meant."""
        return House(self.kind, self.number)


@dataclass(frozen=True)
class Digit:
    """One digit."""

    value: int

    def __str__(self) -> str:
        """As it is written."""
        return str(self.value)


@dataclass(frozen=True)
class Group:
    """Words side by side, with ``gap`` between two of them."""

    words: tuple[Cells | Named | Digit, ...]
    gap: str = " "

    def __str__(self) -> str:
        """As it is written."""
        return self.gap.join(map(str, self.words))


@dataclass(frozen=True)
class Link:
    """``r2c8 is 4`` or ``r2c3 not 4``: one link of a chain."""

    cell: Cells
    holds: bool
    digit: Digit

    def __str__(self) -> str:
        """As it is written."""
        return f"{self.cell} {'is' if self.holds else 'not'} {self.digit}"


@dataclass(frozen=True)
class Place:
    """``4 in b6``: a fact about a house."""

    digit: Digit
    named: Named

    def __str__(self) -> str:
        """As it is written."""
        return f"{self.digit} in {self.named}"


@dataclass(frozen=True)
class Part:
    """One part of a reason, said with ``word`` (empty for what follows the name)."""

    word: str
    said: Group | tuple[Link, ...] | tuple[Cells | Place, ...]

    def __str__(self) -> str:
        """As it is written."""
        if isinstance(self.said, Group):
            text = str(self.said)
        else:
            text = (" then " if isinstance(self.said[0], Link) else ", ").join(map(str, self.said))
        return f": {text}" if self.word == ":" else f" {self.word} {text}" if self.word else f" {text}"


@dataclass(frozen=True)
class Reason:
    """The pattern's name and its parts."""

    name: str
    parts: tuple[Part, ...] = ()

    def __str__(self) -> str:
        """As it is written."""
        return self.name + "".join(map(str, self.parts))

    def group(self, word: str) -> tuple[Cells | Named | Digit, ...]:
        """The words of one part; none if it is not there."""
        return next((part.said.words for part in self.parts if part.word == word and isinstance(part.said, Group)), ())

    def houses(self, word: str) -> list[House]:
        """The houses of one part."""
        return [word.house for word in self.group(word) if isinstance(word, Named)]

    def digits(self, word: str) -> list[int]:
        """The digits of one part."""
        return [word.value for word in self.group(word) if isinstance(word, Digit)]

    def cells(self, word: str, geometry: Geometry) -> list[int]:
        """The cells of one part."""
        return [cell for word in self.group(word) if isinstance(word, Cells) for cell in word.on(geometry)]

    def links(self) -> list[Link]:
        """The links of a chain."""
        return [said for part in self.parts if isinstance(part.said, tuple) for said in part.said if isinstance(said, Link)]

    def cited(self) -> list[Cells | Place]:
        """What ``facts`` lists."""
        said = (said for part in self.parts if isinstance(part.said, tuple) for said in part.said)
        return [word for word in said if not isinstance(word, Link)]


@dataclass(frozen=True)
class Placement:
    """``r3c8 = 9``."""

    cell: Cells
    digit: Digit

    def __str__(self) -> str:
        """As it is written."""
        return f"{self.cell} = {self.digit}"


@dataclass(frozen=True)
class Removal:
    """``r2c7 r2c8 not 2 4``."""

    cells: Group
    digits: Group

    def __str__(self) -> str:
        """As it is written."""
        return f"{self.cells} not {self.digits}"


@dataclass(frozen=True)
class Rest:
    """``rest of b4 not 2 9``."""

    named: Named
    digits: Group

    def __str__(self) -> str:
        """As it is written."""
        return f"rest of {self.named} not {self.digits}"


Effect = Placement | Removal | Rest


@dataclass(frozen=True)
class Statement:
    """The effects, and the reason if one is given."""

    effects: tuple[Effect, ...]
    reason: Reason | None = None

    def __str__(self) -> str:
        """As it is written."""
        effects = "; ".join(map(str, self.effects))
        return effects if self.reason is None else f"{effects} because {self.reason}"


def digits_of(group: Group) -> Iterator[int]:
    """The digits among the words of a group."""
    return (word.value for word in group.words if isinstance(word, Digit))


def cells_of(group: Group, geometry: Geometry) -> Iterator[int]:
    """The cells among the words of a group."""
    return (cell for word in group.words if isinstance(word, Cells) for cell in word.on(geometry))


def one(cell: int, geometry: Geometry) -> Cells:
    """A cell by itself."""
    row, column = divmod(cell, geometry.size)
    return Cells((row + 1,), (column + 1,))
