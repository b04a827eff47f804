"""Cautions: a line for the first page and the whole of each; what stands against a plan of cuts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..concern import Concern
from ..cutting.plan import CutMatter
from ..cutting.tools import THINNEST_TRIM
from ..panel.build import Kind
from ..panel.materials import lifters
from ..plan.plan import Plan
from ..top import Top
from ..units import Tape
from ..work.blades import BladeMatter
from ..work.cautions import Risk
from .saw_lines import numbers_of
from .say import Passage, Say, listed, passage, people

_LIMITS = (
    "Limits at work are set locally (United States 15 mg/m³ of all dust, 29 CFR 1910.1000; "
    "European Union 2 mg/m³ of hardwood, Directive (EU) 2017/2398)."
)

_TOLD = {
    Risk.TREATED: "Stop: treated wood. Wood with preservative or creosote in it is not sawn, "
    "bored, planed, sanded or burnt: its dust and smoke are poison. Take another panel; the local "
    "waste authority says where this one goes.",
    Risk.TREATED_PERHAPS: "Wood from outdoors. Wood from outdoors {age} may hold arsenic, creosote "
    "or other preservative: a green tint, a smell of tar or rows of slits say so, but not every "
    "one shows. Have it tested before it is sawn, planed or sanded, and saw none that is treated; "
    "never burn it.",
    Risk.LEAD: "Old paint and varnish. A coat {age} may hold lead: test it before anything goes "
    "through it, saw, bit and router as much as sander and scraper. Until it is ruled out no dry "
    "sanding, no hot-air gun; chips and dust caught and wiped up wet, children kept away. Local "
    "rules decide what a painter may do.",
    Risk.ASBESTOS: "What the core is. In what is {age}, a fire label, a mineral-looking or "
    "stone-cold core or lining, old lino, vinyl, black glue or a heat mat on it may mean asbestos: "
    "do not drill, saw, sand or scrape it, nor pull a backing off. Look into holes that are there "
    "already, of a lock or a letterbox, and stop until someone licensed to has tested it.",
    Risk.NO_LEGS: "No legs here. The legs of the job, on feet {limit:measure} wide, find no room "
    "to stand apart under this top, so none is laid out, and nothing on these sheets counts on "
    "any. Make feet or insets smaller under [legs], or take another top.",
    Risk.NO_PORTION: "Another template. This top has no {who[0]} to print at full size, so the "
    "template shows what takes the fewest sheets. Write another portion under [template], or leave "
    "it out.",
    Risk.LABORATORY: "Where it stood. What comes from a laboratory may hold mercury, acids or "
    "other residues, and a black, stone-cold or fibrous top may be asbestos cement: ask for its "
    "history, wash and wipe it, and do not cut or sand until that is answered.",
    Risk.KITCHEN: "Where it stood. Grease, cleaners and mould sit in the joints and under the back "
    "of what comes from a kitchen: wash it with gloves on and let it dry; wear a mask where it "
    "smells of mould.",
    Risk.STAGE: "Where it stood. Wood from a stage may be soaked with salts against fire and hold "
    "staples and screws under many coats of paint: ask what it was treated with, and keep its dust "
    "off skin and lungs.",
    Risk.METAL: "Metal. Ironmongery, battens and clips off. Sweep both faces and all edges with a "
    "detector, chalk a ring round every hit, pull it, and sweep again before each tool.",
    Risk.LIFTING: "Lifting. The old panel weighs about {panel:mass} and the new top about "
    "{top:mass}: {people}, and trestles on both sides of the cut.",
    Risk.GRAIN: "Grain. The length of the top lies {found:.0f}° from the grain: {weak}the figure "
    "runs slantwise. For one along it write most_turn = {limit:g}, or less, under [top].",
    Risk.SAWS: "Saws and routers. Eyes and ears protected; the work clamped; support on both sides "
    "of the kerf, so that the blade is never pinched; plug out before a blade or bit is touched. "
    "Follow the makers' instructions.",
    Risk.SLIVERS: "Small pieces. {cuts}: what falls off is narrower than {limit:measure}. No hand "
    "holds it beside the blade: the work is clamped, the piece lies on boards or falls free, and "
    "is taken away when the blade stands still.",
    Risk.DUST: "Dust. Wood dust harms lungs and nose: extraction at the tool and a mask rated for "
    "fine dust. {limits}",
    Risk.BOARD_DUST: "Dust. Board dust carries resin: extraction at the tool and a mask rated for "
    "fine dust. {limits}",
    Risk.STRIPPERS: "Strippers and solvents. Outdoors, or with air moving through; gloves that the "
    "stripper's maker names, goggles; no flame, heater or sparking motor near; none that holds "
    "methylene chloride. Rags and sludge go into a metal can with a lid.",
    Risk.VAPOURS: "Adhesives and resin. Air moves through while they are spread and while they "
    "set; no flame or spark near contact adhesive; epoxy and hardeners off the skin, gloves on, "
    "for they bring on allergies.",
    Risk.OILY_RAGS: "Oily rags. Rags with drying oil heat up and can catch fire within hours: lay "
    "them flat outdoors or drown them in a metal can with a lid.",
    Risk.STANDING: "Standing. Tipping forces and sag are estimates from geometry and usual "
    "densities, not tests. Try the finished table, and follow local codes and a qualified person's "
    "word where it stands in public.",
}
"""Each begins with its title."""

_ASKS = {
    Risk.TREATED: "Treated wood: stop. Not sawn, planed, sanded or burnt; take another panel.",
    Risk.TREATED_PERHAPS: "From outdoors: green tint, tar, rows of slits? Have it tested first.",
    Risk.LEAD: "Old paint or varnish{year}: test it for lead before a blade or plane meets it.",
    Risk.ASBESTOS: "Stone-cold, mineral or fibrous core, lining or backing? Stop, have it tested.",
    Risk.LABORATORY: "Black, stone-cold or fibrous? It may be asbestos cement: stop, have it "
    "tested.\nLaboratory bench: ask what was spilt on it (mercury, acids). Wash it first.",
    Risk.KITCHEN: "From a kitchen: wash it with gloves on, let it dry; a mask where it is mouldy.",
    Risk.STAGE: "From a stage: ask what it was treated with; staples and screws under the paint.",
}
"""What must be answered before work goes on, in a line for the first page."""

_HEED = {
    Risk.METAL: "Metal: sweep both faces and all edges, pull every hit, sweep before each tool.",
    Risk.LIFTING: "{panel:mass}: {people}, and trestles on both sides of each line.",
    Risk.GRAIN: "The length lies {found:.0f}° from the grain: look whether you want that.",
    Risk.SLIVERS: "{lines}: no hand holds the narrow piece that falls; it lies on boards.",
    Risk.STRIPPERS: "Strip it outdoors or with air moving through; gloves and goggles on.",
    Risk.VAPOURS: "Air moves through while glue or resin sets; gloves on, no flame near it.",
}
"""What is heeded at each cut."""

MOST = 5  # cautions that a page can hold and a maker can heed at once (our choice)


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution in one line."""

    words: str
    asks: bool
    """Whether it must be answered before work goes on; otherwise it is heeded at each cut."""


def caution_words(caution: Concern, top: Top, tape: Tape) -> Passage:
    """Return a caution in words."""
    title, _, words = _TOLD[Risk(caution.matter)].partition(". ")
    return passage(title, _filled(words, caution, top, tape))


def _filled(words: str, caution: Concern, top: Top, tape: Tape, lines: str = "") -> str:
    """Return the words of a caution with its figures and those of its panel in them."""
    panel = top.panel
    return tape.fill(
        words,
        caution,
        age="of unknown age" if panel.year is None else f"from {panel.year}",
        year=f" of {panel.year}" if panel.year else "",
        panel=panel.mass,
        top=top.mass,
        people=people(lifters(panel.mass)),
        cuts=listed(caution.who),
        weak="solid wood bends and moves most across its grain, and "
        * (panel.build.kind is Kind.SOLID),
        limits=_LIMITS,
        lines=lines,
    )


_AGAINST = {
    CutMatter.NO_ROOM: "{where} only {found:fine} stands outside the line, and a saw needs "
    "{limit:fine}: what it leaves, its kerf and {falls:measure} that fall off. Write "
    'margin = "{limit:at_least} {unit}" under [top] for a saw cut there, or rout or plane it.',
    BladeMatter.CROSSES: "{cut} runs through {what}: take out any metal first, or lay the top "
    "elsewhere.",
    BladeMatter.NEAR: "{cut} passes closer to {what} than its clearance: sweep there again first.",
}


def concern_words(concern: Concern, say: Say) -> str:
    """Return one sentence about what stands against a plan of cuts, with what to do."""
    who = concern.who
    return say.tape.fill(
        _AGAINST[concern.matter],
        concern,
        where=f"Along {listed(who)}" if who else "On one side",
        unit=say.tape.unit,
        falls=THINNEST_TRIM,
        cut=who[0] if who else "",
        what=listed(who[1:]),
    )


def short_cautions(plan: Plan) -> tuple[Caution, ...]:
    """Return the cautions that this panel and these cuts raise, hardest first."""
    both = ((_asked(plan), True), (_heeded(plan), False))
    return tuple(Caution(words, asks=asks) for told, asks in both for words in told)[:MOST]


def _asked(plan: Plan) -> Iterator[str]:
    numbers = numbers_of(plan)
    crossed: dict[str, list[str]] = {}
    for concern in plan.blades:
        if concern.matter is BladeMatter.CROSSES:
            crossed.setdefault(concern.who[0], []).extend(concern.who[1:])
    for cut, met in list(crossed.items())[:2]:
        line = f"Line {numbers[cut]}" if cut in numbers else cut
        yield f"{line} runs through {listed(met)}: take out any metal first."
    for concern in (c for c in plan.cautions if c.matter in _ASKS):
        words = _ASKS[Risk(concern.matter)]
        yield from _filled(words, concern, plan.top, plan.job.tape).splitlines()
    if plan.job.panel.flattened is not None and plan.datum.struck and not plan.cuts.kept:
        yield "Keep a live edge? Then leave out the saw lines on that side."


def _heeded(plan: Plan) -> Iterator[str]:
    numbers, tape = numbers_of(plan), plan.job.tape
    for trim in plan.cuts.trims:
        if trim.wall is not None:
            yield (
                f"Line {numbers[trim.label]} leaves only {tape.figure(trim.wall)} beside a hole, "
                "where it breaks: boards under it on both sides of the hole."
            )
    for concern in (c for c in plan.cautions if c.matter in _HEED):
        cut = list(dict.fromkeys(str(numbers[who]) for who in concern.who if who in numbers))
        lines = f"Line{'s' * (len(cut) > 1)} {listed(cut)}" if cut else "Small pieces"
        yield _filled(_HEED[Risk(concern.matter)], concern, plan.top, tape, lines)
