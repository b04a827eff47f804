"""Plane geometry that knows nothing of wood: points, paths, regions.

Lengths are in mm, angles in radians anticlockwise from x, and y points up.
"""
