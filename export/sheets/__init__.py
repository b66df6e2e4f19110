"""Paper: sizes, frames, title blocks, pages."""
