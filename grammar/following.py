"""A chain by what is named in turn, whatever words stand between: the board says what follows from what.

``With an 8 there, column 4 has no room for another, and the 8 of row 6 is pushed over to r6c5. That sends the 3 of row 6 to
r6c2.`` Of every cell that is named, a digit named beside it or last may be put there or taken out; what follows from the link
before is the next one. So no word that puts or takes need be known, and nothing is made up: each link holds on the board.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from .mentions import Mention
from .statements import Link, Said

Leads = Callable[[Link, Link], bool]
"""Does the second link follow from the first?"""

PASSED_OVER = 1
"""Cells that may be named and be no link: what else is named was told for something else."""

Chain = tuple[Said[Link], ...]


def followed(names: Sequence[Mention], leads: Leads) -> Chain:
    """The longest chain of links that the names tell in their order; of two as long, the one that is begun first.

    Empty where there is none: a chain has three links at least.
    """
    best: dict[Link, Chain] = {}
    for at, name in enumerate(names):
        found: dict[Link, Chain] = {}
        for cell, digit in _pairs(names, at):
            for holds in (True, False):
                link = Link(cell.value, digit, holds)
                chain = _onto(Said(link, cell.span), best, leads)
                if len(chain) > len(best.get(link, ())):
                    found[link] = chain
        # What refers to the cell named last: "r1c1 is not 6, so 5".
        if name.kind == "digits" and len(name.values) == 1:
            for chain in [*best.values()]:
                for holds in (True, False):
                    link = Link(chain[-1].value.cell, name.bare[0], holds)
                    longer = (*chain, Said(link, name.values[0].span))
                    new = leads(chain[-1].value, link) and link not in map(_value, chain)
                    if new and len(longer) > len(found.get(link, best.get(link, ()))):
                        found[link] = longer
        best |= found
    longest = max(best.values(), key=len, default=())
    cells = {cell for name in names if name.kind == "cells" for cell in name.bare}
    passed_over = cells - {link.value.cell for link in longest}
    return longest if len(longest) > 2 and len(passed_over) <= PASSED_OVER else ()


def _value(said: Said[Link]) -> Link:
    return said.value


def _onto(said: Said[Link], best: dict[Link, Chain], leads: Leads) -> Chain:
    """The longest of these chains that the link can be put to, with it; the link alone where there is none."""
    longest: Chain = ()
    for last, chain in best.items():
        if len(chain) > len(longest) and leads(last, said.value) and said.value not in map(_value, chain):
            longest = chain
    return (*longest, said)


def _pairs(names: Sequence[Mention], at: int) -> Iterator[tuple[Said[Any], int]]:
    """The one cell of that name with each digit that may be meant of it: those named last, and those named right after it."""
    name = names[at]
    if name.kind != "cells" or len(name.values) != 1:
        return
    before = next((other for other in reversed(names[:at]) if other.kind == "digits"), None)
    behind = next((other for other in names[at + 1 : at + 3] if other.kind != "houses"), None)
    digits = [*(before.bare if before else ()), *(behind.bare if behind and behind.kind == "digits" else ())]
    for digit in dict.fromkeys(digits):
        yield name.values[0], digit
