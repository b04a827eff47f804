"""Small jobs whose plans take a moment: what no sample has."""

from __future__ import annotations

JOBS = {
    "own": """
units = "mm"
[panel]
name = "shelf of the wardrobe"
outline = { length = 900, width = 600 }
thickness = 22
build = "plywood"
[top]
shape = "own outline"
outline = [[0, 0], [500, 0], [500, 210], [225, 210], [225, 400], [0, 400]]
""",
    "piece": """
units = "mm"
[panel]
name = "ash slab"
outline = { points = [[0, -60], [400, -52], [800, -66], [1200, -58],
                      [1200, 410], [800, 398], [400, 404], [0, 412]] }
thickness = 45
build = "solid"
material = "ash"
[top]
shape = "piece as found"
keep = ["AB", "CD"]
""",
    "pocket": """
units = "mm"
[panel]
name = "door of the store"
outline = { length = 1200, width = 700 }
thickness = 38
build = "solid"
material = "pine"
defects = [{ name = "lock pocket", kind = "pocket", at = [1150, 350], size = [60, 90] }]
[top]
shape = "rectangle"
covers = [[150, 60]]
most_turn = 0
margin = 5
""",
}
"""By the name that tests call them by."""
