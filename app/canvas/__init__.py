"""The drawing of the wall in the window: what is shown, picked, snapped and moved there."""
