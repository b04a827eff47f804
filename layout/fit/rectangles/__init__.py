"""Rectangles, square or rounded: turn and sides in boxes, the free gap between the edges inside."""
