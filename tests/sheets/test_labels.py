"""Labels keep out of each other's way wherever their points lie."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from panelwright.layout.drawing.kit.labels import LabelSetter
from panelwright.layout.drawing.scene import Stroke, Text, text_box
from panelwright.layout.geometry.bounds import Bounds
from panelwright.layout.geometry.point import Point

ROOM = Bounds(0, 0, 400, 280)
places = st.builds(
    Point, st.floats(min_value=20, max_value=380), st.floats(min_value=20, max_value=260)
)


def overlap(one: Bounds, other: Bounds) -> bool:
    """Whether two boxes share more than their edges."""
    return (
        min(one.right, other.right) - max(one.left, other.left) > 1e-9
        and min(one.top, other.top) - max(one.bottom, other.bottom) > 1e-9
    )


@given(st.lists(places, min_size=2, max_size=25))
def test_no_two_labels_overlap_and_none_leaves_the_sheet(points: list[Point]) -> None:
    """Up to 25 labels, even of one and the same point, all find room of their own."""
    setter = LabelSetter(ROOM)
    texts = [
        item
        for i, point in enumerate(points)
        for item in setter.set(Text(point, f"label {i}"))
        if isinstance(item, Text)
    ]
    boxes = [text_box(text) for text in texts]
    for i, box in enumerate(boxes):
        assert not any(overlap(box, other) for other in boxes[i + 1 :])
        assert ROOM.left <= box.left and box.right <= ROOM.right
        assert ROOM.bottom <= box.bottom and box.top <= ROOM.top


@given(places)
def test_a_label_keeps_off_what_is_taken(point: Point) -> None:
    """It stands outside a box that is to be kept clear, joined by a leader where that is far."""
    setter = LabelSetter(ROOM)
    taken = Bounds(point.x - 9, point.y - 9, point.x + 9, point.y + 9)
    setter.keep_clear(taken)
    items = setter.set(Text(point, "C1"))
    (text,) = (item for item in items if isinstance(item, Text))
    assert not overlap(text_box(text), taken)
    assert any(isinstance(item, Stroke) for item in items)


def test_a_label_goes_where_it_is_wished() -> None:
    """With all the room in the world it stands on the side that was asked for."""
    for way in (Point(1, 1), Point(-1, 1), Point(-1, -1), Point(1, -1)):
        (text,) = LabelSetter(ROOM).set(Text(Point(200, 140), "A", 5.0), towards=way)
        assert isinstance(text, Text)
        middle = text_box(text).middle - Point(200, 140)
        assert middle.x * way.x > 0 and middle.y * way.y > 0


def test_a_label_stands_on_its_point_where_that_is_free() -> None:
    """Asked for there, it is set about the point; else it is led to it, however near it stands."""
    at, setter = Point(200, 140), LabelSetter(ROOM)
    (first,) = setter.set(Text(at, "1: keep"), on=True)
    assert isinstance(first, Text)
    assert text_box(first).middle.distance_to(at) < 1.0
    leader, second = setter.set(Text(at, "2"), on=True)
    assert isinstance(leader, Stroke)
    assert isinstance(second, Text)
    assert not overlap(text_box(first), text_box(second))
