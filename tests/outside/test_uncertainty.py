"""Standard uncertainties of what is read and stated, against the guide they follow and what a class of a gauge means."""

from __future__ import annotations

import math

from firstfill.hydraulics.uncertainty import uncertainty_of_gauge, uncertainty_of_level, uncertainty_of_viscosity
from outside.agreement import agrees


def test_a_level_read_to_2_mm():
    # JCGM 100:2008, 4.3.7: half width a has the standard uncertainty a/√3; two readings of one kind count √2 (5.1.2).
    agrees(
        uncertainty_of_level, "JCGM 100:2008, 4.3.7", uncertainty_of_level(2e-3, 1.0), 1e-3 / math.sqrt(3), rel=1e-12
    )
    two = math.hypot(1e-3 / math.sqrt(3), 1e-3 / math.sqrt(3))
    agrees(uncertainty_of_level, "JCGM 100:2008, 5.1.2", uncertainty_of_level(2e-3, 2.0), two, rel=1e-12)


def test_a_gauge_of_class_1_6():
    # EN 837-1, as a public guide explains it: class 1.6 at 100 bar is ± 1.6 bar all over the scale; exact.
    limit = uncertainty_of_gauge(0.016, 100e5) * math.sqrt(3)
    agrees(uncertainty_of_gauge, "EN 837-1, class of a gauge (public guide)", limit, 1.6e5, rel=1e-12)


def test_a_stated_multiple_of_the_standard_uncertainty():
    # JCGM 100:2008, 4.3.3: where a multiple of it is stated, the standard uncertainty is that over the multiple. The
    # line of ASTM D341 is good to 10 %, k = 2: 250 ± 25 mm²/s has 12.5.
    found = uncertainty_of_viscosity(250e-6, 0.10)
    agrees(uncertainty_of_viscosity, "JCGM 100:2008, 4.3.3", found * 1e6, 12.5, rel=1e-12)
