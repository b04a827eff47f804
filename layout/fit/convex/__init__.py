"""Tops of two sizes (ovals, capsules, circles): turn and shape in boxes, place and size inside."""
