"""Lipping, edging, the profile of the edge and its finish, in words."""

from __future__ import annotations

from collections.abc import Iterator

from ..cutting.builds import Edging
from ..cutting.profile import Arris, ProfilePlan
from ..units import Tape
from ..work.piece import Finish
from .say import Passage, Say, counted, passage


def edging_words(edging: Edging, say: Say) -> Passage:
    """Return how the sawn edges are covered; a lipping too thick to bend cold is laminated."""
    tape = say.tape
    if not edging.thickness:
        kept = " ({kept:measure} of kept edge is left out)" if edging.kept else ""
        bend = " It bends to a radius of {tightest:measure}: warm it there."
        words = (
            f"The raw edge of board drinks and swells: edge it, {{around:measure}} round{kept}, "
            "cut {cut_length:measure}, {strip_width:measure} wide; joints where they show least; "
            f"trim it, file down, never up.{'' if edging.tightest is None else bend}"
        )
        return passage("Edging", tape.fill(words, edging))
    bend = "laminated of {layers} strips {layer:figure} thick, which bend cold"
    if edging.tightest is None:
        bend = "mitred at the corners"
    elif edging.layers == 1:
        bend = "bends cold"
    words = (
        f"{{around:figure}} round{', the kept edges left out' if edging.kept else ''}; "
        "cut {cut_length:figure}, {strip_width:figure} wide and {thickness:figure} thick; "
        f"{bend}; {'joints on the straights' if edging.on_straights else 'one scarfed joint'}; "
        "cramp 24 h, flush"
    )
    return passage("Lipping", tape.fill(words, edging))


def profile_words(profile: ProfilePlan, tape: Tape) -> Iterator[Passage]:
    """Yield what is done to the edge, from above to below."""
    but = " None of it along the kept edge." * bool(profile.keeps)
    bare = " It runs past the lipping and lays the core bare: seal and colour it."
    bare *= bool(profile.core_bare)
    if profile.round_over:
        yield passage(
            "Round over the edge",
            "A bearing bit along the upper arris, the way the edge was routed; without a router "
            f"plane three flats and sand them round.{but}{bare}",
            figures=((tape.figure(profile.round_over), "radius"),),
        )
        bare = ""
    if profile.bevel_in:
        thin = " It is thin: it chips when knocked." * profile.is_thin
        yield passage(
            "Bevel under the edge",
            "Gauge both lines all round and plane from one to the other, ends first. "
            f"{tape.figure(profile.edge_left)} of the edge is left.{thin} Nothing is fixed within "
            f"{tape.figure(profile.fixings_inside)} of the edge.{but}{bare}",
            warnings=(
                f"Leg {number} stands nearer to the edge than that: move it inwards"
                for number in profile.crowded
            ),
            figures=(
                (tape.figure(profile.bevel_in), "in from the edge"),
                (tape.figure(profile.bevel_up), "up the edge"),
            ),
        )
    arris = profile.arris
    which = "every arris" if arris.above else "the lower arris"
    words = (
        f"Break {which} by about {{size:figure}}, so that it neither cuts nor chips; sand to the "
        "line, not past it."
    )
    if arris.by_abrasive:
        words = (
            f"Ease {which} by {{size:small}}, with abrasive only: a plane or a bit lifts veneer "
            "and laminate."
        )
    yield passage("Break the arris", tape.fill(words, arris) + but)


def arris_label(arris: Arris, tape: Tape) -> str:
    """Return what a drawing says of an arris."""
    if arris.by_abrasive:
        return f"arris eased by {tape.small(arris.size)}"
    return f"arris broken by about {tape.figure(arris.size)}"


def finish_words(finish: Finish, tape: Tape, *, top: bool = False) -> Passage:
    """Return how the underside and the edge are coated, or the `top`."""
    title, where = (
        "Coat underside and edge",
        "Both faces and the edge alike, or it cups: {area:area} a coat, half of it now, before "
        "anything is fixed underneath.",
    )
    if not finish.faces:
        title = "Seal the edge"
        where = "Laminate takes no coat: {area:area} of bare edge, each time."
    elif top:
        title, where = "Coat the top", "The show face last, when all else is fixed and set."
    between = f", {finish.recoat:g} h apart" if finish.coats > 1 else ""
    if finish.coats > 1 and finish.coating.between:
        between += f", rubbed down with {finish.coating.between} in between"
    return passage(
        title,
        tape.fill(where, finish),
        "Dust off with a vacuum cleaner and a damp cloth before each; "
        f"{counted(finish.coats, 'thin coat')} of {finish.coat.value}{between}.",
    )
