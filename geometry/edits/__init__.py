"""Edits: pure functions from a job, or a plan of it, to a new job. What they do not touch is shared."""
