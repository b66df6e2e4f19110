"""Datums, centre and quarter lines, dimension chains, the suggested arrangement."""
