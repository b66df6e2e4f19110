"""Generic parts as data. The names are our own and stand for no maker's product."""
