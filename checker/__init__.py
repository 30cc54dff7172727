"""Whether what is said follows: board, pattern catalogue, replay and findings; around them the renderers and commands."""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from .report import Report, audit, audit_file

__all__ = ["Report", "audit", "audit_file"]


def __getattr__(name: str) -> Any:
    # Loaded when first asked for: the plugin that pytest imports in every run lies in this package, and solvers are heavy.
    if name in __all__:
        from . import report

        return getattr(report, name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
