"""The face of the wall in tiles or panels: grid, cuts, amounts, holes, the best start. All lengths are mm."""
