"""The grammar of names (narration.lark), and the smaller ones of it that short work is made with.

An Earley parser tries every rule at every word. A run of words needs only the rules over kinds of words that stand in it; the
others cannot apply, so that the smaller grammar gives the very same tree.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Sequence
from functools import cache, lru_cache
from pathlib import Path

from lark import Lark, Token, Tree
from lark.grammar import Rule, Symbol

KIND_GROUPS = tuple(
    frozenset(group.split())
    for group in (
        "ROW COL BOX ROWS COLS BOXES NUM PLU RC AND",
        "OF ON COMMA RX CX BX",
        "THE CELLW ORD LAST SAME V H M POSS BAND",
        "PAIR LP RP CROSS WHERE ONE NEXT BESIDE NEARBOX",
    )
)
"""Kinds of words that are taken or left out together: few grammars are built, and most runs need the first only."""
NAMING = frozenset().union(*KIND_GROUPS)


@cache
def whole() -> Lark:
    """The grammar of all names."""
    return _built(Path(__file__).with_name("narration.lark").read_text(encoding="utf-8"), NAMING)


@lru_cache(20_000)
def parsed(kinds: str) -> Tree[Token]:
    """The names in a run of words, by their kinds. The same run has the same names, and most runs are seen many times."""
    present = set(kinds.split())
    return _narrowed(frozenset().union(KIND_GROUPS[0], *(group for group in KIND_GROUPS if group & present))).parse(kinds)


def _built(rules: str, kinds: Iterable[str]) -> Lark:
    terminals = "".join(f'\n{kind}: "{kind}"' for kind in sorted(kinds))
    return Lark(rules + terminals + '\n%ignore " "\n', parser="earley", lexer="basic", maybe_placeholders=False)


@cache
def _narrowed(kinds: frozenset[str]) -> Lark:
    """The grammar without the rules that need another kind of word."""
    if kinds == NAMING:
        return whole()
    alternatives: dict[tuple[str, int | None], list[str]] = defaultdict(list)
    for rule in _usable(whole().rules, kinds):
        words = (symbol.name if symbol.is_term else _spelt(symbol.name) for symbol in rule.expansion)
        alternatives[_spelt(rule.origin.name), rule.options.priority].append(" ".join(words))
    return _built(
        "\n".join(
            f"{name}{'' if priority is None else f'.{priority}'}: {' | '.join(ways)}"
            for (name, priority), ways in alternatives.items()
        ),
        kinds,
    )


def _usable(rules: Sequence[Rule], kinds: Collection[str]) -> list[Rule]:
    """The rules by which something of these kinds alone can be said, in their order."""
    said: set[Symbol] = set()
    count = -1
    while count < len(said):
        count = len(said)
        usable = [rule for rule in rules if all(s.name in kinds if s.is_term else s in said for s in rule.expansion)]
        said |= {rule.origin for rule in usable}
    return usable


def _spelt(name: str) -> str:
    """The name of a rule as it may be written: those that lark makes of a ``*`` may not."""
    return f"_of{name}" if name.startswith("__") else name
