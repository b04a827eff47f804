def test_rings_that_differ_by_rounding_share_what_they_hold() -> None:
    """An overlay of two rings that are one but for rounding is not empty."""
    first = Placement(Point(0.0, 0.0), 0.3).of(np.array([[0, 0], [900, 0], [900, 500], [0, 500.0]]))
    rng = np.random.default_rng(6)
    for size in 10.0 ** rng.uniform(-10, -5, 200):
        one = Region.from_rings(first + rng.normal(size=first.shape) * size)
        other = Region.from_rings(first + rng.normal(size=first.shape) * size)
        assert one.meet(other).area == pytest.approx(450_000.0, abs=1.0)
        assert one.minus(other).area <= 1.0
