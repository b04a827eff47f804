"""Why a top is not larger: what it touches, which limits it meets, what each defect costs."""

from .contacts import Contact, Side, Touched, contacts_of
from .costs import Cost, Lies, costs_of
from .limits import LimitMet, limits_met

__all__ = [
    "Contact",
    "Cost",
    "Lies",
    "LimitMet",
    "Side",
    "Touched",
    "contacts_of",
    "costs_of",
    "limits_met",
]
