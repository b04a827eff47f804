"""The panel as it lies while it is marked and sawn: the drawing of the first page."""
