"""Limits as data: each with document, edition, clause and standing. Local codes win over all of them."""

from geometry.rules.rulebook import Rulebook, standard_rules

__all__ = ["Rulebook", "standard_rules"]
