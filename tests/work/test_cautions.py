"""The caution card: each rule by itself, at its year, its mass, its build and what was done.

Laws and papers are named from memory.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from panelwright.layout.concern import Concern
from panelwright.layout.cutting.plan import plan_cuts
from panelwright.layout.cutting.tools import Tools
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.outlines import Circle, Outline, Oval, Rectangle
from panelwright.layout.panel import (
    Build,
    Coat,
    Defect,
    Kind,
    Mend,
    Panel,
    Spoils,
    Was,
    rectangular_outline,
    round_place,
)
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.panel.materials import lifters
from panelwright.layout.top import Top
from panelwright.layout.units import Tape
from panelwright.layout.words.cautions import caution_words
from panelwright.layout.words.panel import assess_words
from panelwright.layout.work.cautions import Risk, cautions_for

OAK = Panel(rectangular_outline(1000, 600), 20, material="oak", year=2010, finish=(Coat.WAX,))


def top_of(panel: Panel, outline: Outline | None = None, turn: float = 0.0) -> Top:
    """Return a top from the middle of a panel."""
    middle = Placement(Point(500, 300), turn)
    return Top(panel, outline or Rectangle(800, 400), middle)


def cautions(
    panel: Panel, outline: Outline | None = None, turn: float = 0.0, **more: bool
) -> tuple[Concern, ...]:
    """Return the cautions for a top from the middle of a panel."""
    top = top_of(panel, outline, turn)
    return cautions_for(top, plan_cuts(top, choose_datum(panel), Tools()), **more)


def risks(panel: Panel, **more: bool) -> set[object]:
    """Return what a panel is warned of."""
    return {caution.matter for caution in cautions(panel, **more)}


def words(panel: Panel, risk: Risk, tape: Tape | None = None) -> str:
    """Return the warning of a risk."""
    (found,) = (c for c in cautions(panel) if c.matter is risk)
    return " ".join(caution_words(found, top_of(panel), tape or Tape()).words)


def built(kind: Kind, **more: object) -> Panel:
    """Return a panel of this build."""
    return replace(OAK, build=Build(kind), material="", **more)  # type: ignore[arg-type]


LEADED = {Coat.OIL, Coat.SHELLAC, Coat.VARNISH, Coat.PAINT}


@pytest.mark.parametrize("coat", Coat)
@pytest.mark.parametrize(("year", "old"), [(None, True), (1991, True), (1992, False)])
def test_a_coat_from_before_1992_may_hold_lead(coat: Coat, year: int | None, old: bool) -> None:
    """What was coloured or dried with lead: until 1978 in the US, until 1992 in the UK.

    16 CFR 1303 (Ban of lead-containing paint); The Environmental Protection (Controls on Injurious
    Substances) Regulations 1992, SI 1992/31. Oil and varnish were dried with lead (common
    knowledge of the trade); wax, laminate and bare wood hold none.
    """
    panel = replace(OAK, year=year, finish=(coat,))
    assert (Risk.LEAD in risks(panel)) is (old and coat in LEADED)
    if old and coat in LEADED:
        assert ("unknown age" if year is None else str(year)) in words(panel, Risk.LEAD)


@pytest.mark.parametrize("kind", Kind)
def test_a_finish_that_nobody_knows_may_hold_lead(kind: Kind) -> None:
    """Whatever lies under it; only what is known to be bare, or new, holds none."""
    unknown = built(kind, year=None, finish=())
    assert Risk.LEAD in risks(unknown)
    assert Risk.LEAD not in risks(replace(unknown, finish=(Coat.NONE,)))
    assert Risk.LEAD not in risks(replace(unknown, was=Was.NEW))


def test_lead_is_tested_for_before_any_cut() -> None:
    """A saw through old paint makes dust as a sander does (40 CFR 745.83, renovation)."""
    told = words(replace(OAK, year=1950, finish=(Coat.PAINT,)), Risk.LEAD)
    assert all(tool in told for tool in ("saw", "bit", "router", "sander", "scraper"))


@pytest.mark.parametrize("kind", Kind)
@pytest.mark.parametrize(("year", "old"), [(None, True), (2004, True), (2005, False)])
def test_a_core_from_before_2005_may_hold_asbestos(kind: Kind, year: int | None, old: bool) -> None:
    """Whatever has a core under its face: banned in the EU by 1 January 2005 (1999/77/EC)."""
    assert (Risk.ASBESTOS in risks(built(kind, year=year))) is (old and kind is not Kind.SOLID)


@pytest.mark.parametrize("coat", Coat)
def test_a_backing_may_hold_asbestos(coat: Coat) -> None:
    """Lino, vinyl, black glue and heat mats were made with it (EPA, *Asbestos in the home*)."""
    suspect = coat in (Coat.LINOLEUM, Coat.VINYL, Coat.BLACK_GLUE, Coat.HEAT_MAT)
    coats = (coat,) if coat is Coat.NONE else (Coat.OIL, coat)
    old, new = (replace(OAK, year=year, finish=coats) for year in (1975, 2005))
    assert (Risk.ASBESTOS in risks(old)) is suspect
    assert Risk.ASBESTOS not in risks(new)


@pytest.mark.parametrize("was", [None, *Was])
def test_what_a_solid_panel_was_says_whether_it_may_hold_asbestos(was: Was | None) -> None:
    """Doors were lined against fire; laboratories, kitchens and floors had mats and black glue.

    HSE, *HSG264 Asbestos: the survey guide*, appendix 2. Where the finish is known, only doors
    hide it; a year that forbids it clears all.
    """
    door = was in (Was.DOOR, Was.FIRE_DOOR)
    backed = was in (Was.LABORATORY, Was.KITCHEN, Was.FLOOR)
    panel = replace(OAK, was=was, year=1975)
    assert (Risk.ASBESTOS in risks(panel)) is door
    assert (Risk.ASBESTOS in risks(replace(panel, finish=()))) is (door or backed)
    assert Risk.ASBESTOS not in risks(replace(panel, finish=(), year=2005))


def test_nobody_is_told_to_make_a_hole_in_what_may_be_asbestos() -> None:
    """Whoever wants to see the core looks into holes that are there (HSE, HSG264)."""
    told = words(built(Kind.HOLLOW, year=1971), Risk.ASBESTOS)
    assert "do not drill, saw, sand or scrape" in told
    assert "Drill" not in told


@pytest.mark.parametrize(
    ("was", "risk"),
    [
        (Was.LABORATORY, Risk.LABORATORY),
        (Was.KITCHEN, Risk.KITCHEN),
        (Was.STAGE, Risk.STAGE),
        (Was.DOOR, None),
        (None, None),
    ],
)
def test_a_place_leaves_something_in_the_wood(was: Was | None, risk: Risk | None) -> None:
    """Said by the key of its own, however the panel is called; a slab is from no lab."""
    panel = replace(OAK, was=was, name="lab bench slab of the kitchen stage")
    left = {Risk.LABORATORY, Risk.KITCHEN, Risk.STAGE}
    assert left & risks(panel) == ({risk} if risk else set())


@pytest.mark.parametrize("coat", Coat)
def test_treated_wood_is_not_sawn(coat: Coat) -> None:
    """Of any year and whatever it was (EPA, *Chromated arsenicals*; REACH, annex XVII, 31)."""
    treated = coat in (Coat.PRESERVATIVE, Coat.CREOSOTE)
    panel = replace(OAK, finish=(coat,))
    assert (cautions(panel)[0].matter is Risk.TREATED) is treated
    if treated:
        assert "not sawn" in words(panel, Risk.TREATED)


@pytest.mark.parametrize(("year", "old"), [(None, True), (2004, True), (2005, False)])
@pytest.mark.parametrize("was", [Was.OUTDOORS, Was.FURNITURE, None])
def test_wood_from_outdoors_may_be_treated(year: int | None, old: bool, was: Was | None) -> None:
    """Arsenic was sold for gardens until June 2004 in the EU (Directive 2003/2/EC)."""
    found = risks(replace(OAK, year=year, was=was))
    assert (Risk.TREATED_PERHAPS in found) is (old and was is Was.OUTDOORS)


@pytest.mark.parametrize(
    ("mass", "many"), [(24.95, None), (25.05, "two"), (60.0, "three"), (99.0, "four")]
)
@pytest.mark.parametrize("kind", [Kind.SOLID, Kind.MDF])
def test_two_lift_from_25_kilograms(mass: float, many: str | None, kind: Kind) -> None:
    """The old panel is lifted whole, before anything is cut (HSE, INDG143: 25 kg for one)."""
    panel = built(kind)
    panel = replace(panel, thickness=panel.thickness * mass / panel.mass)
    assert (Risk.LIFTING in risks(panel)) is (many is not None)
    if many:
        told = words(panel, Risk.LIFTING)
        assert f"{mass:.0f} kg and the new top about {top_of(panel).mass:.0f} kg: {many}" in told


def test_the_same_people_lift_wherever_it_is_told() -> None:
    """A slab of 99 kg: four on the card, four in the first step, four in the part on legs."""
    panel = replace(OAK, thickness=OAK.thickness * 99 / OAK.mass)
    assert "four people" in words(panel, Risk.LIFTING)
    told = assess_words(panel, Tape())
    assert "four people lift it" in told.words[0]
    assert lifters(panel.mass) == 4  # the figure that the part on legs prints


def test_a_card_in_inches_weighs_in_pounds() -> None:
    """99 kg are 218 lb (1 lb = 0.45359237 kg, by definition since 1959)."""
    panel = replace(OAK, thickness=OAK.thickness * 99 / OAK.mass)
    told = words(panel, Risk.LIFTING, Tape(imperial=True))
    assert "about 218 lb" in told
    assert " kg" not in told


@pytest.mark.parametrize("kind", Kind)
def test_dust_of_glued_board_carries_resin(kind: Kind) -> None:
    """Particles, fibres and veneers are bound with resin; solid and framed wood is not."""
    glued = kind not in (Kind.SOLID, Kind.FRAMED, Kind.HOLLOW)
    found = {Risk.DUST, Risk.BOARD_DUST} & risks(built(kind))
    assert found == {Risk.BOARD_DUST if glued else Risk.DUST}


@pytest.mark.parametrize("kind", Kind)
@pytest.mark.parametrize(("degrees", "grain"), [(9.5, 0), (10.5, 0), (-33.8, 0), (88, 90), (0, 90)])
def test_a_top_that_turns_out_of_the_grain_is_told_of(
    kind: Kind, degrees: float, grain: float
) -> None:
    """From ten degrees, in solid wood and veneer; a round top lies no way at all."""
    panel = built(kind, grain_deg=grain)
    off = abs(math.remainder(degrees - grain, 180))
    told = {
        name: [c for c in cautions(panel, outline, math.radians(degrees)) if c.matter is Risk.GRAIN]
        for name, outline in (("oval", Oval(500, 250)), ("round", Circle(400)))
    }
    assert len(told["oval"]) == (kind in (Kind.SOLID, Kind.VENEERED) and off >= 10)
    for caution in told["oval"]:
        words = caution_words(caution, top_of(panel), Tape()).words[0]
        assert f"lies {off:.0f}° from the grain" in words
    assert told["round"] == []


@pytest.mark.parametrize(("strip", "small"), [(145.0, True), (155.0, False)])
def test_no_hand_holds_a_narrow_piece_beside_the_blade(strip: float, small: bool) -> None:
    """A strip narrower than 150 mm is named with its cut; a broader one can be held (our choice).

    HSE, *Safe use of woodworking machinery*, L114, keeps hands off within 300 mm at a saw bench.
    """
    line = 2.4 + 3.0  # the kerf, and what the usual allowance leaves for the router
    panel = replace(OAK, boundary=rectangular_outline(800 + 4, 400 + strip + line))
    top = Top(panel, Rectangle(800, 400), Placement(Point(402, 200)))
    cuts = plan_cuts(top, choose_datum(panel), Tools())
    found = [c for c in cautions_for(top, cuts) if c.matter is Risk.SLIVERS]
    assert [c.who for c in found] == ([(cuts.trims[0].label,)] if small else [])
    if small:
        told = caution_words(found[0], top, Tape()).words[0]
        assert cuts.trims[0].label in told and "No hand holds it" in told


def test_a_small_corner_is_never_held() -> None:
    """The triangles that are sawn off a round top's blank are named like strips."""
    found = [c for c in cautions(OAK, Circle(400)) if c.matter is Risk.SLIVERS]
    top = top_of(OAK, Circle(400))
    cuts = plan_cuts(top, choose_datum(OAK), Tools()).corner_cuts
    assert cuts
    assert {cut.label for cut in cuts} <= set(found[0].who)


@pytest.mark.parametrize("coat", Coat)
def test_a_coat_is_stripped_with_care(coat: Coat) -> None:
    """Varnish, paint, oil and wax come off with strippers or solvents; laminate and mats do not."""
    stripped = coat in LEADED or coat is Coat.WAX
    assert (Risk.STRIPPERS in risks(replace(OAK, finish=(coat,)))) is stripped


def test_an_unknown_coat_is_stripped_with_care() -> None:
    """What nobody knows may be varnish."""
    assert Risk.STRIPPERS in risks(replace(OAK, finish=()))


def test_glue_gives_off_vapours() -> None:
    """Where a mend, an edging or a leg is glued, and only there."""
    assert Risk.VAPOURS not in risks(OAK)
    assert Risk.VAPOURS in risks(OAK, glued_legs=True)
    assert Risk.VAPOURS in risks(built(Kind.MDF))  # its raw edge is edged
    hole = Defect("hole", round_place(Point(500, 300), 20), frozenset({Spoils.SHOWING}))
    assert Risk.VAPOURS in risks(OAK.with_defect(replace(hole, mend=Mend.PLUG)))


@pytest.mark.parametrize("risk", Risk)
def test_each_risk_is_told_in_whole_sentences(risk: Risk) -> None:
    """A title, and words that end with a full stop, with no hole left in them."""
    told = caution_words(Concern(risk, ("Cut 1",), 12.0, 10.0), top_of(OAK), Tape())
    assert told.title and told.words[0].endswith(".") and "{" not in told.words[0]
