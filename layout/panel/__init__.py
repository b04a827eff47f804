"""The old panel: its outline, build and defects, and the sound wood that is left."""
