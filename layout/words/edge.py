"""Mends, joints and rims; lipping, edging, the profile of the edge and the finish, in words."""

from __future__ import annotations

from collections.abc import Iterator

from ..cutting.builds import Edging, FrameJoint, RimLoss, UnknownFrame
from ..cutting.mending import Mended
from ..cutting.profile import Arris, ProfilePlan
from ..panel.defect import Mend
from ..units import Tape
from ..work.piece import Finish
from .cuts_told import words_of
from .say import Passage, Say, listed, sentence

_UNTOUCHED = " None of it along the kept edge."
_BARE = " It runs past the lipping and lays the core bare: seal and colour it."


@words_of.register
def lipping_words(edging: Edging, say: Say) -> Passage:
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
    words = (
        f"{tape.figure(edging.around)} round{kept}; cut {tape.figure(edging.cut_length)}, "
        f"{tape.figure(edging.strip_width)} wide and {tape.figure(edging.thickness)} thick; "
        f"{bend}; {joints}; cramp 24 h, flush"
    )
    return Passage("Lipping", (sentence(words),))


def edging_words(edging: Edging, tape: Tape) -> Passage:
    """Return how the raw edge of board is covered."""
    kept = f" ({tape.measure(edging.kept)} of kept edge is left out)" if edging.kept else ""
    bend = ""
    if edging.tightest is not None:
        bend = f" It bends to a radius of {tape.measure(edging.tightest)}: warm it there."
    words = (
        f"The raw edge of board drinks and swells: edge it, {tape.measure(edging.around)} "
        f"round{kept}, cut {tape.measure(edging.cut_length)}, "
        f"{tape.measure(edging.strip_width)} wide; joints where they show least; trim it, file "
        f"down, never up.{bend}"
    )
    return Passage("Edging", (words,))


def profile_words(profile: ProfilePlan, tape: Tape) -> Iterator[Passage]:
    """Yield what is done to the edge, from above to below."""
    but = _UNTOUCHED if profile.keeps else ""
    bare = _BARE if profile.core_bare else ""
    if profile.round_over:
        words = (
            "A bearing bit along the upper arris, the way the edge was routed; without a router "
            "plane three flats and sand them round."
        )
        figures: tuple[tuple[str, str], ...] = ((tape.figure(profile.round_over), "radius"),)
        yield Passage("Round over the edge", (words + but + bare,), figures=figures)
    if profile.bevel_in:
        thin = " It is thin: it chips when knocked." if profile.is_thin else ""
        words = (
            "Gauge both lines all round and plane from one to the other, ends first. "
            f"{tape.figure(profile.edge_left)} of the edge is left.{thin} Nothing is fixed within "
            f"{tape.figure(profile.fixings_inside)} of the edge."
        )
        told = words + but + (bare if not profile.round_over else "")
        figures = (
            (tape.figure(profile.bevel_in), "in from the edge"),
            (tape.figure(profile.bevel_up), "up the edge"),
        )
        yield Passage("Bevel under the edge", (told,), warnings=_crowded(profile), figures=figures)
    yield Passage("Break the arris", (_arris(profile.arris, tape) + but,))


def _crowded(profile: ProfilePlan) -> tuple[str, ...]:
    return tuple(
        f"Leg {number} stands nearer to the edge than that: move it inwards."
        for number in profile.crowded
    )


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
    how = (
        f"Dust off with a vacuum cleaner and a damp cloth before each; {finish.coats} thin {coats} "
        f"of {finish.coat.value}{between}."
    )
    return Passage(title, (where, how))


@words_of.register
def mend_words(mend: Mended, say: Say) -> Passage:
    """Return how a defect is mended."""
    tape = say.tape
    words = _HOW[mend.how](mend, tape)
    if mend.proud:
        words += f"; leave it {tape.figure(mend.proud)} proud, {mend.wait:g} h, then level"
    return Passage(f"Mend {mend.defect}", (sentence(words),))


def _plug(mend: Mended, tape: Tape) -> str:
    through = " (right through, a board clamped behind)" if mend.through else ""
    grain = ", its grain along the panel's" if mend.grained else ""
    kind = "face-grain plug" if mend.grained else "plug"
    return (
        f"bore clean to {tape.figure(mend.length)}, {tape.figure(mend.depth)} deep{through}; glue "
        f"in a {kind} of the same diameter{grain}"
    )


def _keys(mend: Mended, tape: Tape) -> str:
    count = len(mend.places)
    keys, places = ("keys", "places") if count > 1 else ("key", "place")
    return (
        f"{count} bow-tie {keys} {tape.figure(mend.length)} long, {tape.figure(mend.width)} wide "
        f"and {tape.figure(mend.depth)} deep, their grain across it, at the {places} drawn; fill "
        "what is left of the split, glue"
    )


def _patch(mend: Mended, tape: Tape) -> str:
    grain = ", its grain along the panel's" if mend.grained else ""
    return (
        f"a patch {tape.figure(mend.length)} by {tape.figure(mend.width)}, "
        f"{tape.figure(mend.depth)} deep{grain}: knife round it, rout inside the knife line, glue"
    )


def _filler(mend: Mended, tape: Tape) -> str:
    return (
        "clean it down to sound wood; press in two-part filler of the colour of the finished wood "
        f"{_in_layers(mend, tape)}"
    )


def _resin(mend: Mended, tape: Tape) -> str:
    dam = "tape and a board under it, as it goes right through" if mend.through else "level it"
    return (
        f"clean it, seal its sides with a thin coat; {dam}; pour resin "
        f"{_in_layers(mend, tape)} or as its maker says; prick the bubbles"
    )


def _in_layers(mend: Mended, tape: Tape) -> str:
    deep = tape.figure(mend.depth)
    if mend.layers == 1:
        return f"{deep} deep at once"
    return f"{deep} deep in {mend.layers} layers, each hard before the next"


def _sanded(mend: Mended, tape: Tape) -> str:
    way = ", along the grain," if mend.grained else ""
    return (
        f"sand {tape.small(mend.depth)} off{way} and fade it out over a patch "
        f"{tape.figure(mend.length)} by {tape.figure(mend.width)}, so that no hollow is felt"
    )


_HOW = {
    Mend.PLUG: _plug,
    Mend.KEY: _keys,
    Mend.PATCH: _patch,
    Mend.FILLER: _filler,
    Mend.RESIN: _resin,
    Mend.SAND: _sanded,
}


@words_of.register
def rim_words(loss: RimLoss, say: Say) -> Passage:
    """Return what is done where the line leaves the solid rim of a hollow panel."""
    count = len(loss.stretches)
    where = "along one stretch" if count == 1 else f"along {count} stretches"
    if loss.is_all_round:
        where = "all the way round"
    length = say.tape.figure(loss.length)
    words = (
        f"the line leaves the solid rim {where}, {length} in all (drawn thick): "
        "after the cut rake the core back, glue a new strip between the skins all along there, "
        "24 h, then go to the line"
    )
    return Passage("Hollow core", (sentence(words),))


@words_of.register
def joint_words(joint: FrameJoint, say: Say) -> Passage:
    """Return what is done about a joint that cuts run through."""
    verb = "run" if len(joint.cuts) > 1 else "runs"
    words = (
        f"{listed(joint.cuts) or 'the curve'} {verb} through the joint at the {joint.name}, "
        "show face up: it may fall apart or hold a nail or dowel; cramp it, sweep for "
        "metal, and glue it anew"
    )
    return Passage(f"Frame joint, {joint.name}", (sentence(words),))


@words_of.register
def unknown_words(act: UnknownFrame, say: Say) -> Passage:
    """Return what is done about joints that nobody knows the place of."""
    words = "The widths of stiles and rails are not known: find the joints and keep cuts off them."
    return Passage("Frame joints", (words,))
