"""Short job files for the tests of the command line."""

import math

PLAIN = """
units = "mm"
[panel]
outline = { length = 1600, width = 700 }
thickness = 26
material = "oak"
[top]
shape = "capsule"
margin = 8
[legs]
count = 4
[tools]
guide_left = 115
"""


def turned_rectangle(length: float, width: float, degrees: float) -> str:
    """Return a job whose panel is a rectangle turned about the origin, given by its corners."""
    cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    corners = ((0, 0), (length, 0), (length, width), (0, width))
    points = [[cos * x - sin * y, sin * x + cos * y] for x, y in corners]
    return (
        f"[panel]\noutline = {{ points = {points} }}\nthickness = 20\n"
        '[top]\nshape = ["capsule", "oval", "circle", "rectangle", "rounded rectangle"]\n'
    )


TEN_MISTAKES = """
units = "mm"
nmae = "typo"
[panel]
outline = { length = 1600, width = 700 }
thickness = "26 furlongs"
build = "soild"
grain = true
[[panel.defects]]
name = "knot"
at = [5000, 100]
diameter = 20
[[panel.defects]]
name = "knot"
at = [300, 100]
diameter = -4
[top]
shape = "capsul"
least_length = 900
most_length = 800
corner_radius = "six"
[legs]
count = 2
[tools]
kerf = -1
"""
