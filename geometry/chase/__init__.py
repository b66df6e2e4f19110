"""Chases and recesses: width, depth, outline."""
