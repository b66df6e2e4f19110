"""Drawings, pens and sheets: what the engine knows, put on paper and in files. No Qt here."""
