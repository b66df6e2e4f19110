"""Routes of pipes from feed or port to port."""
