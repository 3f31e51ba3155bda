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
        "hagen-poiseuille": Source("Rabie, Fluid Power Engineering", "p. 57, Eq. 2B.15", "read"),
        "colebrook": Source("Colebrook-White friction factor", "1/√f = −2 log10(ε/3.7D + 2.51/(Re√f))", "read"),
        "en-1991-1-4": Source(
            "EN 1991-1-4, wind actions",
            "§4.5 (ρ = 1.25 kg/m³), §7.4.3 signboards c_f = 1.80, e = 0.25 b",
            "read",
        ),
        "euler": Source("Euler column, pinned-pinned", "F = π²EI/L²", "read"),
        "jcgm-100": Source("JCGM 100:2008 (GUM)", "clause 5.1, uncorrelated inputs", "memory"),
        "nema-mg-1": Source("NEMA MG 1 (Condensed, 2011)", "12.44 voltage ± 10 %", "read"),
        "nec-430.32": Source("NFPA 70 (NEC) 430.32(A)(1)", "125 % / 115 % of nameplate amperes", "secondary"),
        "iso-4413": Source(
            "ISO 4413:2010, hydraulic fluid power, general rules",
            "sense of the reservoir and pressure clauses",
            "memory",
        ),
    }
)
