"""Whether what is said follows: board, pattern catalogue, replay and findings; around them the renderers and commands."""

from .report import Report, audit, audit_file

__all__ = ["Report", "audit", "audit_file"]
