"""Standard uncertainties of what is read and stated, against the guide they follow and the class of a gauge."""

from __future__ import annotations

import math

import numpy as np
import pytest

from firstfill.commissioning.spread import Spread, propagated
from firstfill.hydraulics.gauge import reads_at_least, reads_at_most
from firstfill.hydraulics.uncertainty import uncertainty_of_gauge, uncertainty_of_level, uncertainty_of_viscosity
from outside.agreement import agrees

JCGM = "JCGM 100:2008, example H.2 (figures from memory)"


def test_jcgm_100_h2_resistance_reactance_impedance():
    """Voltage, current and phase of one circuit, read at once, so that they hang together.

    V = 4.9990 V ± 0.0032, I = 19.661 mA ± 0.0095, φ = 1.04446 rad ± 0.00075; r(V,I) = −0.36, r(V,φ) = 0.86,
    r(I,φ) = −0.65. The guide gives u(R) = 0.071 Ω, u(X) = 0.295 Ω, u(Z) = 0.236 Ω: three figures at most.
    """
    values = {"voltage": 4.9990, "current": 19.6610e-3, "phase": 1.04446}
    widths = {"voltage": 0.0032, "current": 0.0095e-3, "phase": 0.00075}
    # What hangs together is written as three sources that do not: the root of the matrix of correlations.
    root = np.linalg.cholesky(np.array([[1, -0.36, 0.86], [-0.36, 1, -0.65], [0.86, -0.65, 1]]))
    spreads = {
        name: Spread({f"source {n}": float(root[row, n]) * width for n in range(3)})
        for row, (name, width) in enumerate(widths.items())
    }
    expected = {
        "R": (lambda voltage, current, phase: voltage / current * math.cos(phase), 127.732, 0.071),
        "X": (lambda voltage, current, phase: voltage / current * math.sin(phase), 219.847, 0.295),
        "Z": (lambda voltage, current, phase: voltage / current, 254.260, 0.236),
    }
    for relation, value, uncertainty in expected.values():
        found = relation(**values)
        assert found == pytest.approx(value, abs=1e-3 * 1.01)
        given = {name: spread for name, spread in spreads.items() if name in values}
        spread = propagated(relation, values, given, found)
        # The widths and correlations are given to two figures: 1 to 2 % of what comes out.
        agrees(propagated, JCGM, spread.standard, uncertainty, rel=0.03)


def test_carried_along_as_drawn_lots_are():
    """A tank read at two marks and drawn by an uncertain flow: 400 000 lots against the first-order law."""
    lots = np.random.default_rng(20260302)
    reading, surface = 0.002, 0.1125
    marks = [lots.uniform(-0.5, 0.5, 400_000) * reading * surface for _ in range(2)]
    flows = 1.6e-4 * (1 + lots.uniform(-0.03, 0.03, 400_000))
    drawn = (0.0146 + marks[0] - marks[1]) / flows
    standard = uncertainty_of_level(reading, 1.0) * surface
    usable = Spread({"full": standard, "low": -standard})
    flow = Spread({"flow": 0.03 * 1.6e-4 / math.sqrt(3)})
    found = propagated(
        lambda volume, flow: volume / flow,
        {"volume": 0.0146, "flow": 1.6e-4},
        {"volume": usable, "flow": flow},
        0.0146 / 1.6e-4,
    )
    # The spread of 400 000 lots is itself good to some 0.1 %; the second order of 3 % is 0.1 % too.
    agrees((propagated, uncertainty_of_level), "numpy 2.4, 400 000 lots", found.standard, float(drawn.std()), rel=5e-3)


def test_rectangles():
    # JCGM 100, 4.3.7: half width a, u = a/√3; F.2.2.1: an indication of δ, u = 0.29 δ.
    source = "JCGM 100:2008, 4.3.7 and F.2.2.1 (from memory)"
    agrees(uncertainty_of_level, source, uncertainty_of_level(1.0, 1.0), 0.29, within=0.005)
    # EN 837-1: class 1.6 may be off by 1.6 % of its span: 2.56 bar of 160; half a division of 2 bar to read.
    agrees(reads_at_most, source, reads_at_most(12.44e5, 0.016, 160e5, 2e5), 16e5, rel=1e-9)
    agrees(reads_at_least, source, reads_at_least(13.56e5, 0.016, 160e5, 2e5), 10e5, rel=1e-9)
    agrees(uncertainty_of_gauge, source, uncertainty_of_gauge(0.016, 160e5), 0.016 * 160e5 / 1.7320508, rel=1e-7)
    agrees(
        uncertainty_of_viscosity,
        "half of an expanded one, k = 2",
        uncertainty_of_viscosity(50e-6, 0.1),
        2.5e-6,
        rel=1e-9,
    )
