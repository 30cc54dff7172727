"""The pattern catalogue: every pattern by its canonical name, from the easiest to tell to the hardest."""

from __future__ import annotations

from . import chains, fish, intersections, plain, singles, subsets, wings
from .shape import Parts, Pattern

CATALOGUE: dict[str, Pattern] = {
    pattern.form.name: pattern
    for module in (singles, intersections, subsets, fish, wings, chains, plain)
    for pattern in module.PATTERNS
}
FORMS = tuple(pattern.form for pattern in CATALOGUE.values())

__all__ = ["CATALOGUE", "FORMS", "Parts", "Pattern"]
