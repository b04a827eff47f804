"""Before any mark: assess, metal, flatness, datum."""

from __future__ import annotations

from ...job.plan import Plan
from ...panel import Face, Kind, Spoils
from ...panel.lifting import lifters, people
from ...words.datum import datum_words, square_words
from ...words.mends import BY
from ...words.panel import made_of
from ..steps.setting_out import datum_scene, faults_scene, square_scene
from .rows import BenchStep, Section, Table, say_of

TWIST = 3.0
"""What winding sticks may show at the ends of a panel, mm (common practice)."""

_SPOILS = {
    Spoils.SHOWING: "showing: outside the top",
    Spoils.CUTTING: "cutting: no blade, bit or screw",
    Spoils.BEARING: "bearing: no leg or fixing",
}


def before(plan: Plan) -> Section:
    """Return the steps before the first mark."""
    steps = (_assess(plan), _metal(plan), _flatness(plan), _datum(plan), _square(plan))
    return Section("Before any mark", steps)


def _assess(plan: Plan) -> BenchStep:
    panel, tape = plan.job.panel, plan.job.tape
    count = lifters(panel.mass)
    lift = "One person can lift it." if count == 1 else f"{people(count).capitalize()} lift it."
    words = [
        f"{panel.name.capitalize()}: {made_of(panel)}, {tape.measure(panel.thickness)} thick, "
        f"about {tape.mass(panel.mass)}. {lift}",
        "Read the cautions above first; stop where one of them is not answered.",
    ]
    if panel.build.kind is Kind.SOLID:
        words.append("Moisture at most 12 % in three places, else let it wait.")
    table = None
    if panel.defects:
        table = Table(
            ("Defect", "Face", "Spoils", "Keep clear by", "Mended by"),
            tuple(
                (
                    defect.name,
                    _face(defect.face, defect.depth, plan),
                    "; ".join(_SPOILS[s] for s in Spoils if s in defect.spoils) or "nothing",
                    tape.measure(defect.clear),
                    "–" if defect.mend is None else BY[defect.mend],
                )
                for defect in panel.defects
            ),
            "Find each of these on the panel. A defect that is not here is not in the plan.",
        )
    if panel.flattened is not None and plan.datum.struck and not plan.cuts.kept:
        words.append(
            "First question: keep a live edge? Then leave out every cut along it, square the ends "
            "only, and measure the legs from the long centreline."
        )
    return BenchStep("Assess", tuple(words), table, drawing=faults_scene(plan))


def _face(face: Face, depth: float | None, plan: Plan) -> str:
    if face is Face.THROUGH:
        return "through"
    deep = f", {plan.job.tape.measure(depth)} deep" if depth is not None else ""
    return ("show face" if face is Face.UP else "under face") + deep


def _metal(plan: Plan) -> BenchStep:
    return BenchStep(
        "Metal",
        (
            "Ironmongery, battens and clips off. Sweep both faces and all edges with a detector, "
            "ring every hit with chalk, pull it, sweep again.",
        ),
    )


def _flatness(plan: Plan) -> BenchStep:
    tape, panel = plan.job.tape, plan.job.panel
    words = [f"Winding sticks at both ends: up to {tape.measure(TWIST)} of twist is accepted."]
    if panel.flattened is None:
        words += [
            "The hump goes up.",
            f"The plan counts on {tape.measure(panel.thickness)}: where flattening leaves less, "
            "write the thickness that is left under flattened in the job and print anew.",
        ]
    elif plan.cuts.again is None:
        words.append(
            f"Skim both faces flat now, from {tape.measure(panel.thickness)} to "
            f"{tape.measure(panel.flattened)}: everything below counts on that."
        )
    else:
        words.append(
            "More than that is taken out when it has been cut short: from "
            f"{tape.measure(panel.thickness)} to {tape.measure(panel.flattened)}, which everything "
            "after the rough cuts counts on."
        )
    return BenchStep("Flatness", tuple(words))


def _datum(plan: Plan) -> BenchStep:
    return BenchStep.of(datum_words(plan.datum, say_of(plan)), datum_scene(plan))


def _square(plan: Plan) -> BenchStep:
    return BenchStep.of(square_words(plan.check, plan.datum, say_of(plan)), square_scene(plan))
