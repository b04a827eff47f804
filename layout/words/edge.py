"""Lipping, edging, the profile of the edge and its finish, in words."""

from __future__ import annotations

from collections.abc import Iterator

from ..cutting.edging import Edging
from ..cutting.profile import Arris, ProfilePlan
from ..units import Tape
from ..work.piece import Finish
from .cuts_told import words_of
from .say import Passage, Say, passage

_UNTOUCHED = " None of it along the kept edge."
_BARE = " It runs past the lipping and lays the core bare: seal and colour it."


@words_of.register
def _(edging: Edging, say: Say) -> Passage:
    """Return how the lipping goes on; too thick to bend cold it is laminated."""
    tape = say.tape
    if edging.tightest is None:
        bend = "mitred at the corners"
    elif edging.layers == 1:
        bend = "bends cold"
    else:
        layer = tape.figure(edging.layer)
        bend = f"laminated of {edging.layers} strips {layer} thick, which bend cold"
    kept = ", the kept edges left out" if edging.kept else ""
    joints = "joints on the straights" if edging.on_straights else "one scarfed joint"
    return passage(
        "Lipping",
        f"{tape.figure(edging.around)} round{kept}; cut {tape.figure(edging.cut_length)}, "
        f"{tape.figure(edging.strip_width)} wide and {tape.figure(edging.thickness)} thick; "
        f"{bend}; {joints}; cramp 24 h, flush",
    )


def edging_words(edging: Edging, tape: Tape) -> Passage:
    """Return how the raw edge of board is covered."""
    kept = f" ({tape.measure(edging.kept)} of kept edge is left out)" if edging.kept else ""
    bend = ""
    if edging.tightest is not None:
        bend = f" It bends to a radius of {tape.measure(edging.tightest)}: warm it there."
    return passage(
        "Edging",
        f"The raw edge of board drinks and swells: edge it, {tape.measure(edging.around)} "
        f"round{kept}, cut {tape.measure(edging.cut_length)}, "
        f"{tape.measure(edging.strip_width)} wide; joints where they show least; trim it, file "
        f"down, never up.{bend}",
    )


def profile_words(profile: ProfilePlan, tape: Tape) -> Iterator[Passage]:
    """Yield what is done to the edge, from above to below."""
    but = _UNTOUCHED if profile.keeps else ""
    bare = _BARE if profile.core_bare else ""
    if profile.round_over:
        words = (
            "A bearing bit along the upper arris, the way the edge was routed; without a router "
            "plane three flats and sand them round."
        )
        radius = ((tape.figure(profile.round_over), "radius"),)
        yield passage("Round over the edge", words + but + bare, figures=radius)
        bare = ""
    if profile.bevel_in:
        thin = " It is thin: it chips when knocked." if profile.is_thin else ""
        crowded = (
            f"Leg {number} stands nearer to the edge than that: move it inwards"
            for number in profile.crowded
        )
        yield passage(
            "Bevel under the edge",
            "Gauge both lines all round and plane from one to the other, ends first. "
            f"{tape.figure(profile.edge_left)} of the edge is left.{thin} Nothing is fixed within "
            f"{tape.figure(profile.fixings_inside)} of the edge.{but}{bare}",
            warnings=crowded,
            figures=(
                (tape.figure(profile.bevel_in), "in from the edge"),
                (tape.figure(profile.bevel_up), "up the edge"),
            ),
        )
    yield passage("Break the arris", _arris(profile.arris, tape) + but)


def _arris(arris: Arris, tape: Tape) -> str:
    which = "every arris" if arris.above else "the lower arris"
    if arris.by_abrasive:
        return (
            f"Ease {which} by {tape.small(arris.size)}, with abrasive only: a plane or a bit lifts "
            "veneer and laminate."
        )
    return (
        f"Break {which} by about {tape.figure(arris.size)}, so that it neither cuts nor chips; "
        "sand to the line, not past it."
    )


def arris_label(arris: Arris, tape: Tape) -> str:
    """Return what a drawing says of an arris."""
    if arris.by_abrasive:
        return f"arris eased by {tape.small(arris.size)}"
    return f"arris broken by about {tape.figure(arris.size)}"


def finish_words(finish: Finish, tape: Tape, *, top: bool = False) -> Passage:
    """Return how the underside and the edge are coated, or the `top`."""
    area = tape.area(finish.area)
    if not finish.faces:
        where, title = f"Laminate takes no coat: {area} of bare edge, each time.", "Seal the edge"
    elif top:
        where, title = "The show face last, when all else is fixed and set.", "Coat the top"
    else:
        where, title = (
            f"Both faces and the edge alike, or it cups: {area} a coat, half of it now, before "
            "anything is fixed underneath.",
            "Coat underside and edge",
        )
    between = f", {finish.recoat:g} h apart" if finish.coats > 1 else ""
    if finish.coats > 1 and finish.coating.between:
        between += f", rubbed down with {finish.coating.between} in between"
    coats = "coat" if finish.coats == 1 else "coats"
    return passage(
        title,
        where,
        f"Dust off with a vacuum cleaner and a damp cloth before each; {finish.coats} thin {coats} "
        f"of {finish.coat.value}{between}.",
    )
