"""One slip is told once, under its key, on its line, with what to do."""

from __future__ import annotations

import pytest

from panelwright.layout.errors import JobError, Problem
from panelwright.layout.jobfile import look_over, read_job

GROUND = "[panel]\noutline = { length = 1000, width = 600 }\nthickness = 20\n"
BY_POINTS = "[panel]\noutline = { points = %s }"
HOLE = "[[panel.defects]]\nat = [50, 60]\ndiameter = 8\n"


def only(text: str) -> Problem:
    """Return the one problem of a text."""
    found = look_over(text).problems
    assert len(found) == 1, found
    return found[0]


@pytest.mark.parametrize(
    ("added", "key", "line", "says"),
    [
        # keys
        ("thickness_mm = 4", "panel.thickness_mm", 4, "did you mean thickness?"),
        ("kerf = 2", "panel.kerf", 4, "belongs under [tools]"),
        (
            "[[panel.defects]]\nat = [9, 9]\nlength = 8",
            "panel.defects[1].length",
            6,
            "; write size = [250, 40]; known",
        ),
        (HOLE + "grain = 0", "panel.defects[1].grain", 7, "belongs under [panel]"),
        ("[cash]\nfee = 1", "cash", 4, "not known in the top of the file"),
        ("[tols]\nkerf = 2", "tols", 4, "did you mean tools?"),
        # types
        ('grain = "north"', "panel.grain", 4, "not a number of degrees"),
        ("grain = true", "panel.grain", 4, "true is not a number"),
        ("grain = nan", "panel.grain", 4, "that can be measured"),
        ("year = 1962.5", "panel.year", 4, "not a whole number"),
        ("year = 62", "panel.year", 4, "62 is below 1000: write the year in four figures"),
        ("name = 12", "panel.name", 4, "put it in quotes"),
        ('name = " "', "panel.name", 4, "empty"),
        (f'name = "{"x" * 201}"', "panel.name", 4, "at most 200"),
        ("finish = [1]", "panel.finish[1]", 4, "is not a name in quotes"),
        ("material = 1979-05-27", "panel.material", 4, "a date or time is not a name"),
        ("[tools]\nkerf = []", "tools.kerf", 5, "a list of 0 is not a length"),
        ('[tools]\nrouter = "yes"', "tools.router", 5, "without quotes"),
        ("tools = 3", "panel.tools", 4, "belongs under the top of the file"),
        # lengths
        ("[top]\nmargin = -1", "top.margin", 5, "-1 mm is below 0 mm"),
        ("[top]\nstep = 0", "top.step", 5, "0 mm is not above 0 mm"),
        ("[top]\nmargin = 1e6", "top.margin", 5, "more than 100 m"),
        ("[top]\nmargin = 1e300", "top.margin", 5, "beyond everything"),
        ("[top]\nmargin = inf", "top.margin", 5, "that can be measured"),
        ('[top]\nmargin = "6 furlongs"', "top.margin", 5, "unknown unit 'furlongs'"),
        ('[top]\nmargin = "-1/4 in"', "top.margin", 5, '"-1/4 in" is below 0 mm'),
        ("[top]\ntape_error = 25", "top.tape_error", 5, "25 mm is above 20 mm: measure again"),
        # names
        ('build = "chipbord"', "panel.build", 4, "did you mean chipboard?"),
        ('material = "oack"', "panel.material", 4, "did you mean oak?"),
        ('[top]\nshape = "capsul"', "top.shape", 5, "did you mean capsule?"),
        ('[top]\nshape = ["oval", "ovl"]', "top.shape[2]", 5, "did you mean oval?"),
        ("[top]\nshape = []", "top.shape", 5, "the list is empty"),
        ('[top]\ngoal = "best"', "top.goal", 5, "use one of largest, longest, widest, nearest"),
        ('[tools]\nstring = "nylon"', "tools.string", 5, "stretches too much"),
        # parts of the panel
        ('stile = 90', "panel.stile", 4, "no rails or stiles"),
        ('build = "hollow"\nrail = 600', "panel.rail", 5, "wider than the panel's 1000 mm"),
        ('damaged = ["A", "E"]', "panel.damaged[2]", 4, "4 corners, A to D"),
        ('damaged = "A"', "panel.damaged", 4, "not a list of names"),
        ("datum = { from = [1, 2] }", "panel.datum.to", 4, "to is missing"),
        ("datum = { from = [1, 2], to = [1, 2] }", "panel.datum.to", 4, "the same point"),
        ("cutouts = [[0, 0], [1, 1], [2, 0]]", "panel.cutouts", 4, "three brackets"),
        ("cutouts = [[[0, 0], [9, 9]]]", "panel.cutouts[1]", 4, "2 of at least 3"),
        (
            "cutouts = [\n[[0, 0], [90, 0], [0, 90]],\n[[-9, -9], [-9, 0], [0, -9]]]",
            "panel.cutouts[2]",
            6,
            "wholly off the panel",
        ),
        (
            "cutouts = [[[-1, -1], [2000, -1], [2000, 2000], [-1, 2000]]]",
            "panel.cutouts",
            4,
            "leave nothing",
        ),
        ("cutouts = [{ at = [9, 9] }]", "panel.cutouts[1]", 4, "it has no size"),
        ("cutouts = 3", "panel.cutouts", 4, "3 is not a list of cut-outs"),
        ("datum = 3", "panel.datum", 4, "open it with [panel.datum]"),
        ("[panel.defect]\nat = [1, 1]", "panel.defect", 4, "did you mean defects?"),
        # defects
        ("defects = 3", "panel.defects", 4, "3 is not a list of defects"),
        ("defects = [3]", "panel.defects[1]", 4, "write { key = value, … }"),
        ("[[panel.defects]]\nat = [1, 1]\nsize = [1, 2, 3]", "panel.defects[1].size", 6, "a size"),
        ("[[panel.defects]]\npoints = 4", "panel.defects[1].points", 5, "not a list of points"),
        (HOLE.replace("[[", "[").replace("]]", "]"), "panel.defects", 4, "two brackets"),
        ("[[panel.defects]]\nat = [1, 1]", "panel.defects[1]", 4, "it has no size"),
        ("[[panel.defects]]\nsize = 4", "panel.defects[1]", 4, "at is missing"),
        (HOLE + "size = 4", "panel.defects[1].diameter", 6, "twice"),
        (HOLE + "turn = 4", "panel.defects[1].turn", 7, "no direction"),
        (HOLE + "clear = -1", "panel.defects[1].clear", 7, "-1 mm is below 0 mm"),
        (HOLE + "depth = 21", "panel.defects[1].depth", 7, "deeper than the panel is thick, 20 mm"),
        (HOLE + 'depth = 9\nface = "through"', "panel.defects[1].depth", 7, "leave depth out"),
        (HOLE + 'spoils = "sitting"', "panel.defects[1].spoils", 7, "showing, cutting, bearing"),
        (HOLE + 'mend = "sand"', "panel.defects[1].mend", 7, "give depth"),
        (
            "[[panel.defects]]\nat = [50, 60]\nsize = 20\nmend = \"filler\"",
            "panel.defects[1].mend",
            7,
            "falls out",
        ),
        ('finish = ["none", "wax"]', "panel.finish", 4, "goes alone"),
        ('was = "submarine"', "panel.was", 4, "is not known"),
        (HOLE + 'kind = "stain"\nface = "down"', "panel.defects[1].spoils", 4, "spoils nothing"),
        (HOLE + HOLE + 'name = "Defect 1"', "panel.defects[2].name", 10, "a name of its own"),
        (HOLE + HOLE.replace("50", "1004.1"), "panel.defects[2]", 7, "off the panel"),
        (
            "[[panel.defects]]\npoints = [[0, 0],\n[90, 90], [90, 0],\n[0, 90]]",
            "panel.defects[1].points",
            5,
            "edge from point 1 meets the edge from point 3 at x 45 mm, y 45 mm",
        ),
        (
            "[[panel.defects]]\nat = [50, 60]\nsize = [\n250,\n-3]",
            "panel.defects[1].size[2]",
            8,
            "-3 mm is not above 0 mm",
        ),
        # tops
        ("[top]\nleast_width = 500\nmost_width = 400", "top.least_width", 5, "nothing lies"),
        ("[top]\nleast_ratio = 3\nmost_ratio = 2", "top.least_ratio", 5, "3 is above most_ratio 2"),
        ("[top]\nlength = 500\nmost_length = 600", "top.most_length", 6, "length alone fixes it"),
        ("[top]\nwidth = 300\nlength = 200", "top.width", 5, "so swap them"),
        ("[top]\nlength = 500\nwidth = 400\nleast_ratio = 2", "top.least_ratio", 7, "1.25"),
        ("[top]\nwidth = 100\ncorner_radius = 51", "top.corner_radius", 6, "half the width, 50 mm"),
        ('[top]\nwidth = 100\nshape = "rounded rectangle"', "top.corner_radius", 4, "60 mm"),
        ("[top]\ncorner_radius = 5\nmost_corner_radius = 9", "top.most_corner_radius", 6, "alone"),
        ("[top]\nmost_width = 80\nlipping = 40", "top.lipping", 6, "leaves no core"),
        ("[top]\nmost_turn = 91", "top.most_turn", 5, "91 degrees is above 90 degrees"),
        ("[top]\ngap = 0", "top.gap", 5, "0 percent is not above 0 percent"),
        ('[top]\ngoal = "nearest"\nlength = 9', "top.width", 4, "needs length and width"),
        # legs
        ("[legs]\ncount = 1", "legs.count", 5, "fewer than 3 do not stand"),
        ("[legs]\ncount = 2", "legs.count", 5, "fewer than 3 square feet do not stand"),
        ("[legs]\nat = [[0, 0], [1, 1]]", "legs.at", 5, "fewer than 3 square feet"),
        ("[legs]\nat = [[0, 0]]", "legs.at", 5, "1 of at least 2"),
        ("[legs]\ncounts = [2, 4]", "legs.counts", 5, "2 slabs"),
        ("[legs]\ncounts = []", "legs.counts", 5, "not a list of numbers"),
        ("[legs]\ncount = 4\ncounts = [4, 6]", "legs.counts", 6, "twice"),
        ("[legs]\nat = [[0, 0], [90, 90], [90, 0]]\ngoal = \"firmest\"", "legs.goal", 6, "where"),
        ("[legs]\nheight = 700\ntable_height = 740", "legs.table_height", 6, "twice"),
        ("[legs]\ntable_height = 10", "legs.table_height", 5, "leaves no leg"),
        ("[legs]\nheight = 4\nplate = 90", "legs.height", 5, "leaves no leg under a plate"),
        ("[legs]\nplate_thickness = 4", "legs.plate_thickness", 5, "plate = [90, 90]"),
        ("[legs]\nplate_holes = 60", "legs.plate_holes", 5, "plate = [90, 90]"),
        ("[legs]\nplate = 60\nplate_holes = 60", "legs.plate_holes", 6, "less than the plate"),
        ("[legs]\nscrew = [5, 40]", "legs.screw", 5, "comes through a top 20 mm thick: at most 14"),
        ("[legs]\nscrew = [5, 4]", "legs.screw", 5, "longer than thick"),
        ('[legs]\nfixing = "glued"\nscrew = [5, 12]', "legs.screw", 6, 'fixing = "screwed"'),
        ('[legs]\nglue = "rigid"', "legs.glue", 5, 'fixing = "glued"'),
        ('[legs]\nmaterial = "brick"\nfixing = "screwed"', "legs.fixing", 6, "takes no screw"),
        ('[legs]\nmaterial = "brick"\nscrew = [5, 12]', "legs.screw", 6, "the legs are loose"),
        ("[legs]\nsplay = 31", "legs.splay", 5, "leans no farther"),
        ("[legs]\ncreep = 0.5", "legs.creep", 5, "below 1"),
        ("[legs]\nplace = 100", "legs.place", 5, "about 600 mm"),
        ('[legs]\nfoot = "slab"', "legs.size", 4, "two sizes"),
        ("moisture = [12, 8]", "panel.moisture", 4, "the lower one first"),
        ("moisture = [12, 80]", "panel.moisture[2]", 4, "above 30"),
        ('sawn = "rough"', "panel.sawn", 4, "use one of flat, quarter"),
        ("[legs]\nat = [[0, 0], [90, 90], [90, 0]]\ncount = 4", "legs.count", 6, "3 places"),
        ("[legs]\ninset = 9\ninset_end = 9", "legs.inset_end", 6, "inset is for all round"),
        ('[legs]\nfoot = "ring"', "legs.wall", 4, "wall is missing"),
        ('[legs]\nfoot = "ring"\nwall = 30', "legs.wall", 6, "below half the width"),
        (
            "[legs]\nat = [[-400, -150], [0, 0], [400, 150]]",
            "legs.at",
            5,
            "3 legs in a row do not stand: move one at least 10 mm out of it",
        ),
        (
            "[legs]\nat = [[-400, -150], [0, 90], [0, 90], [400, -150]]",
            "legs.at",
            5,
            "legs 2 and 3 stand at one place: move them apart",
        ),
        ("[legs]\ncount = 8\ninset = 270", "legs.inset", 6, "at most 240 mm"),
        (
            "[top]\nwidth = 160\n[legs]\ncount = 3\ninset = 50\nsize = 60",
            "legs.inset",
            8,
            "no room beside each other: at most 45 mm",
        ),
        ("[legs]\nwall = 3", "legs.wall", 5, "only a ring or a tube has a wall"),
        ("[legs]\nsize = [30, 40]", "legs.size", 5, 'foot = "rectangular"'),
        ('[legs]\nfoot = "rectangular"', "legs.size", 4, "two sizes"),
        ('[legs]\ndensity = 600\nmaterial = "oak"', "legs.material", 6, "twice"),
        # tools and template
        ('[tools]\nstring = "wire"\nstring_stretch = 1', "tools.string_stretch", 6, "twice"),
        ("[tools]\nstring_stretch = 6", "tools.string_stretch", 5, "use braided line or wire"),
        ('[template]\npaper = "A5"', "template.paper", 5, "use one of A4"),
        ("[template]\nmargin = 90", "template.margin", 5, "above 80 mm"),
        ("[template]\nmargin = 80", "template", 4, "mm"),
    ],
)  # fmt: skip
def test_a_slip_is_told_once_where_it_is(added: str, key: str, line: int, says: str) -> None:
    """Each slip in a job that is right otherwise is one problem with its key, line and remedy."""
    problem = only(GROUND + added)
    assert (problem.key, problem.line) == (key, line)
    assert says in problem.message


@pytest.mark.parametrize(
    ("text", "key", "says"),
    [
        ("", "", "says nothing"),
        ("# a remark\n", "", "says nothing"),
        ('name = "x"', "panel", "the panel is missing"),
        ("panel = 3", "panel", "3 is not a table"),
        ("[[panel]]", "panel", "a list of 1 is not a table"),
        ("[panel]", "panel.outline", "the outline is missing"),
        ("[panel]\noutline = 3", "panel.outline", "3 is not a table"),
        ("[panel]\noutline = {}", "panel.outline", "neither length and width nor points"),
        ("[panel]\noutline = { length = 9 }", "panel.outline.width", "width is missing"),
        ("[panel]\noutline = { length = 9, widht = 9 }", "panel.outline.widht", "mean width?"),
        ("[pannel]\noutline = { length = 9, width = 9 }", "pannel", "mean panel?"),
        ("panel.outline = { length = 0, width = 9 }", "panel.outline.length", "not above 0"),
        (
            "panel.outline = { length = 9, width = 9, radius = 1, radii = [1, 1, 1, 1] }",
            "panel.outline.radii",
            "twice",
        ),
        (
            "panel.outline = { length = 9, width = 9, radius = 5 }",
            "panel.outline.radius",
            "take 10 mm",
        ),
        (
            "panel.outline = { length = 9, width = 9, radius = 1, clip = 1 }",
            "panel.outline.clip",
            "both rounded and clipped",
        ),
        (
            "panel.outline = { length = 9, width = 9, radii = [1, 1] }",
            "panel.outline.radii",
            "four lengths, for A, B, C, D",
        ),
        (
            "panel.outline = { length = 0, width = 9, bows = [1, 2, 3, 1], radius = 1 }",
            "panel.outline.length",
            "not above 0",
        ),
        (
            "panel.outline = { length = 9, width = 9, bows = 3 }",
            "panel.outline.bows",
            "3 is not a list",
        ),
        (
            "panel.outline = { length = 9, width = 9, bows = "
            "[{ from = 1, rise = 1 }, { from = 1, rise = 1 }] }",
            "panel.outline.bows[2].from",
            "bows twice",
        ),
        (
            BY_POINTS % "[[0, 0], [900, 0], [900, 20], [0, 20]], bows = [{ from = 1, rise = -60 }]",
            "panel.outline.bows",
            "with its bows the outline is not simple",
        ),
        (
            "panel.outline = { length = 9, width = 9, bows = [1, 2, 3] }",
            "panel.outline.bows",
            "3 bows for 4 edges",
        ),
        (
            "panel.outline = { length = 9, width = 9, bows = [{ from = 5, rise = 1 }] }",
            "panel.outline.bows[1].from",
            "5 is no corner: there are 4",
        ),
        (
            "panel.outline = { length = 9, width = 9, bows = [{ from = 1 }] }",
            "panel.outline.bows[1].rise",
            "rise is missing",
        ),
        (
            "panel.outline.length = 9\npanel.outline.width = 9\n"
            "panel.outline.points = [[0, 0], [9, 0], [0, 9]]\n",
            "panel.outline.length",
            "the points say it all",
        ),
        (BY_POINTS % "[[0, 0], [9, 0]]", "panel.outline.points", "2 of at least 3"),
        (BY_POINTS % "[[0, 0], [9, 0], [0, 0]]", "panel.outline.points", "2 of at least 3"),
        (BY_POINTS % "[[0, 0], [9, 0], [9, 0], [0, 9]]", "panel.outline.points[3]", "the same"),
        (BY_POINTS % "[[0, 0], [9, 0], [0, 9, 1]]", "panel.outline.points[3]", "not a point"),
        (BY_POINTS % "[[0, 0], [9, 0], [0, true]]", "panel.outline.points[3][2]", "true"),
        (BY_POINTS % "[[0, 0], [9, 0], [20, 0]]", "panel.outline.points", "in order"),
        (
            BY_POINTS % "[[0, 0], [1000, 0], [0, 600], [1000, 600]]",
            "panel.outline.points",
            "the edge from point 2 meets the edge from point 4 at x 500 mm, y 300 mm",
        ),
        (
            BY_POINTS % "[[0, 0], [9, 0], [0, 9]], bows = [{ from = 1, rise = 5 }]",
            "panel.outline.bows",
            "bows 5 mm over 9 mm",
        ),
    ],
)
def test_a_panel_that_cannot_be_is_one_problem(text: str, key: str, says: str) -> None:
    """A panel that is missing, half given or impossible is told once, and nothing follows."""
    problem = only(text)
    assert problem.key == key
    assert says in problem.message


def test_problems_are_told_in_the_units_of_the_file() -> None:
    """A job in inches reads its limits in inches."""
    text = (
        'units = "in"\n[panel]\noutline = { length = 40, width = 20 }\n'
        "[top]\nleast_width = 21\nmost_width = 20"
    )
    assert "least_width 21 in is above most_width 20 in" in only(text).message


def test_a_top_larger_than_its_panel_is_no_slip_of_the_file() -> None:
    """Such a wish can be read; that nothing fits is for the search to say."""
    text = "[panel]\noutline = { length = 1000, width = 600 }\n[top]\nwidth = 601"
    assert look_over(text).problems == ()


TEN = """\
units = "mm"
[panel]
nmae = "north door"
outline = { points = [[0, 0], [1000, 0], [0, 600], [1000, 600]] }
thickness = -18
build = "chipbord"
[[panel.defects]]
name = "knot"
at = [9000, 300]
size = [250, 40]
[[panel.defects]]
name = "knot"
at = [100, 300]
diameter = "4o mm"
[top]
shape = "capsul"
least_length = 1800
most_length = 1200
corner_radius = 60 mm
[legs]
count = true
"""


def test_ten_mistakes_are_ten_problems() -> None:
    """A job with ten different mistakes names all ten, each with its line, in the order it has."""
    with pytest.raises(JobError) as caught:
        read_job(TEN)
    assert [(problem.line, problem.key) for problem in caught.value.problems] == [
        (3, "panel.nmae"),
        (4, "panel.outline.points"),
        (5, "panel.thickness"),
        (6, "panel.build"),
        (7, "panel.defects[1]"),
        (12, "panel.defects[2].name"),
        (14, "panel.defects[2].diameter"),
        (16, "top.shape"),
        (17, "top.least_length"),
        (19, "top.corner_radius"),
        (21, "legs.count"),
    ]
    assert all(str(problem) in str(caught.value) for problem in caught.value.problems)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("a = 1\na = 2", [("a", 2, "the first is on line 1")]),
        ("[x]\na = [\n1]\na = [\n2]\nb = 1", [("x.a", 4, "the first is on line 2")]),
        ("a = 31 3/8\nb = 5 mm", [("a", 1, "in quotes"), ("b", 2, "in quotes")]),
        ('a = "5\' 3""', [("a", 1, 'inches are in or \\"')]),
        ('a = "no\nb = "end', [("a", 1, "missing quote"), ("b", 2, "missing quote")]),
        ("a = half", [("a", 1, "this is no value")]),
        ("a =", [("a", 1, "this is no value")]),
        ("thickness 44", [("thickness", 1, "followed by =")]),
        ("a b = 1", [("a", 1, "has no blank in it")]),
        ('a = "\\q"', [("a", 1, "backslash")]),
        ("a = {b = 1, b = 2}", [("a", 1, "twice between the same { }")]),
        ("a = 1\n\n[b", [("", 3, "missing ]")]),
        ("[a]\n[b]\n[a]", [("", 3, "opened twice")]),
        ("[[a]]\n[a]", [("", 2, "opened twice")]),
        ("= 3", [("", 1, "no key starts here")]),
        ("a = [1,\n2", [("a", 2, "starts on line 1: is it closed?")]),
        ("a = [1,\n\nb = 2", [("a", 3, "starts on line 1: is it closed?")]),
        ("a = {\nb = 1 }", [("a", 1, "stays on one line")]),
        ("a = " + "9" * 5000, [("a", 1, "thousands of digits")]),
        ("b = 1\na = " + "[" * 50 + "]" * 50, [("", 2, "nest more than 24 deep")]),
    ],
)
def test_what_is_no_toml_is_told_with_its_line(
    text: str, found: list[tuple[str, int, str]]
) -> None:
    """A slip of TOML itself has a line, and what to do is said in the maker's words."""
    told = [p for p in look_over(text).problems if "not known" not in p.message]
    told = [p for p in told if "the panel is missing" not in p.message]
    assert [(p.key, p.line) for p in told] == [(key, line) for key, line, _ in found]
    for problem, (_, _, says) in zip(told, found, strict=True):
        assert says in problem.message


def test_after_a_line_that_is_no_toml_the_rest_is_still_read() -> None:
    """A length without its quotes does not keep the other mistakes back, and counts as given."""
    text = "[panel]\noutline = { length = 900, width = 600 }\nthickness = 1 3/4\ngrain = true\n"
    reading = look_over(text)
    assert [(p.key, p.line) for p in reading.problems] == [
        ("panel.thickness", 3),
        ("panel.grain", 4),
    ]
    assert not reading.missing


@pytest.mark.parametrize(
    ("data", "line", "says"),
    [
        (b"a = 1\nb = '\xe9'", 2, "0xe9 is not UTF-8"),
        ("[panel]".encode("utf-16"), None, "not UTF-8"),
        (b"\x00\x01\x02", None, "not UTF-8"),
        (b"a = '\x07'", 1, "control character"),
        (b"a = 1\rb = 2", 1, "goes on after its value"),
    ],
)
def test_bytes_that_are_no_text_are_told(data: bytes, line: int | None, says: str) -> None:
    """A file in another encoding is told as such, with the line where it shows."""
    assert [problem.line for problem in look_over(data).problems if says in problem.message] == [
        line
    ]


@pytest.mark.parametrize("ends", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_line_ends_and_byte_order_marks_do_not_matter(ends: str, mark: str) -> None:
    """A file of any editor is read, and its lines are counted alike."""
    text = mark + (GROUND + "x = 1\n").replace("\n", ends)
    assert [(p.key, p.line) for p in look_over(text).problems] == [("panel.x", 4)]
    assert [(p.key, p.line) for p in look_over(text.encode()).problems] == [("panel.x", 4)]


def test_a_thickness_that_only_a_plan_needs_is_kept_apart() -> None:
    """Without a thickness there is a job for a fit, and one line on what a plan would miss."""
    reading = look_over("[panel]\noutline = { length = 900, width = 600 }\n")
    assert reading.job is not None and not reading.problems
    assert [(p.key, p.line) for p in reading.missing] == [("panel.thickness", 1)]
    assert reading.job.missing == reading.missing
    assert look_over(GROUND).missing == ()
