"""The bibliography: every published source a relation, a check or a word leans on, once, by key.

``verified`` says how far the text was seen when the entry was made: ``read`` (figure or rule read in a public
copy), ``secondary`` (seen only in a secondary text), ``memory`` (from memory, to be confirmed before a clause is
quoted), ``practice`` (common practice of the trade, no source), ``definition`` (geometry, logic, a definition).
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

__all__ = ["SOURCES", "Source"]

Verified = Literal["read", "secondary", "memory", "practice", "definition"]


@dataclass(frozen=True, slots=True)
class Source:
    """One entry of the bibliography.

    Parameters
    ----------
    title
        Author, title, edition or year.
    where
        Clause, page, equation or table; empty where none is known.
    verified
        How far the text was seen.
    """

    title: str
    where: str
    verified: Verified


SOURCES: MappingProxyType[str, Source] = MappingProxyType(
    {
        "definition": Source("Definition or plain geometry", "", "definition"),
        "physics": Source("Elementary statics and mechanics", "", "definition"),
        "practice": Source("Common practice, no source", "", "practice"),
        "unit-fact": Source("A fact stated by the maker of the part", "", "definition"),
        "esposito": Source("A. Esposito, Fluid Power with Applications", "worked examples", "read"),
        "api-11.1": Source(
            "API MPMS chapter 11.1 / ASTM D1250 (2004), lubricating oils (Table 54D)",
            "K0 = 0, K1 = 0.6278; CTL = exp[−αΔT(1 + 0.8αΔT)]",
            "read",
        ),
        "astm-d341": Source(
            "ASTM D341 / Walther, viscosity-temperature lines", "log log (ν + 0.7) = A − B log T", "read"
        ),
        "iso-2533": Source("ISO 2533 / U.S. Standard Atmosphere 1976", "troposphere", "read"),
        "iec-60534-2-1": Source("IEC 60534-2-1, flow capacity of control valves", "Reynolds number factor", "read"),
        "hagen-poiseuille": Source(
            "Rabie, Fluid Power Engineering; above Re 2000 Colebrook-White",
            "p. 57, Eq. 2B.15; 1/√f = −2 log10(ε/3.7D + 2.51/(Re√f))",
            "read",
        ),
        "en-1991-1-4": Source(
            "EN 1991-1-4, wind actions",
            "§4.5 (ρ = 1.25 kg/m³), §7.4.3 signboards c_f = 1.80, e = 0.25 b",
            "read",
        ),
        "euler": Source("Euler column, pinned-pinned", "F = π²EI/L²", "read"),
        "johnson": Source(
            "J. B. Johnson's parabola for columns, as in V. M. Faires, Design of Machine Elements",
            "chapter 7; touches Euler's curve at λ = √(2π²E/R_e); problem 334",
            "secondary",
        ),
        "jcgm-100": Source("JCGM 100:2008 (GUM)", "clause 5.1, uncorrelated inputs", "memory"),
        "nema-mg-1": Source("NEMA MG 1 (Condensed, 2011)", "12.44 voltage ± 10 %", "read"),
        "synchronous-speed": Source("NEMA MG 1, synchronous speed of alternating-current motors", "120 f/p", "memory"),
        "ufgs-15010a": Source("US Unified Facilities Guide Specification 15010A", "filling through 10 µm", "read"),
        "tm-5-3810-307": Source("US Army TM 5-3810-307-24-1-2", "2 minutes without load after filling", "read"),
        "ufgs-08331n": Source(
            "US Unified Facilities Guide Specification 08331N; UFC 4-211-01N", "3-11, moved on loss of power", "read"
        ),
        "nec-430.32": Source("NFPA 70 (NEC) 430.32(A)(1)", "125 % / 115 % of nameplate amperes", "secondary"),
        "iso-4413": Source(
            "ISO 4413:2010, hydraulic fluid power, general rules",
            "sense of the reservoir and pressure clauses",
            "memory",
        ),
        "gas-law": Source("General gas law and polytropic change of state", "p·V^n constant, n = 1 to 1.4", "read"),
        "bulk-modulus": Source(
            "A. Esposito, Fluid Power with Applications", "bulk modulus, examples 2-11 and 2-17", "read"
        ),
        "lame": Source("Lamé's thick-walled cylinder", "strain of the bore under inside pressure", "memory"),
        "petroleum-heat": Source(
            "C. S. Cragoe, Thermal Properties of Petroleum Products, NBS Miscellaneous Publication 97 (1929)",
            "specific heat of liquid oils",
            "memory",
        ),
        "asme-b40.100": Source("ASME B40.100 practice", "working pressure at 25-75 % of full scale", "secondary"),
        "en-837-1": Source(
            "EN 837-1:1996, Bourdon tube pressure gauges",
            "accuracy class: limits of error as a share of the span",
            "memory",
        ),
        "iso-4406": Source("ISO 4406, coding of particle contamination", "", "memory"),
        "hse-push": Source(
            "Health and Safety Executive, Manual handling, guidance L23: pushing and pulling",
            "to start or stop a load 200 N (women 150 N), to keep it in motion 100 N (women 70 N); over these, assess",
            "read",
        ),
        "nema-mg-1-unbalance": Source("NEMA MG 1", "12.45 voltage unbalance 1 %", "memory"),
        "en-12453": Source("EN 12453, powered doors, closing force", "400 N, 150 N, 25 N", "secondary"),
        "nema-mg-10": Source(
            "NEMA MG 10, as reprinted in the EASA Electrical Engineering Handbook",
            "table 2-3: A starts per hour, C least rest between starts, s",
            "secondary",
        ),
        "wisner-1975": Source(
            "P. E. Wisner, F. N. Mohsen, N. Kouwen, Removal of air from water lines by hydraulic means (1975), "
            "in the form of R. L. Sanks, Pumping Station Design",
            "v = √(gd)(0.825 + 0.25 √sin θ), air in water",
            "secondary",
        ),
        "flow-divider": Source(
            "Error of a flow divider: flows (1 ± e)Q/2 into equal cylinders", "geometry of the definition", "definition"
        ),
        "holding-margin": Source(
            "Handbooks of load-holding valves: set 1.3 times the greatest held load pressure", "", "secondary"
        ),
        "line-velocity": Source(
            "Velocity limits of hydraulic lines, common handbook table",
            "to 500 psi and returns 10-15 ft/s, 500-3000 psi 15-20 ft/s, above 20-25 ft/s",
            "read",
        ),
        "osha-1910.147": Source("29 CFR 1910.147, control of hazardous energy", "(d)(5) stored energy", "secondary"),
    }
)
