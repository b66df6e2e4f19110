"""The hanging hose: the line it takes, what it sweeps, how far it reaches. Millimetres, y up."""
