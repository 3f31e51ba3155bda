"""The working of every sheet, done again from what is printed: a reader with a pocket calculator gets the same.

Each formula is written again here, apart from the program, and keyed by how the sheet prints it; each number is read
from the printed text and turned into SI by a table of units of our own. The outcome must be the printed one, as near
as the printed digits of what went in allow; and these must be enough to get it to a thousandth.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import dataclass

import pytest

from firstfill.hydraulics.sources import SOURCES
from firstfill.sheet.document import WorkedInput, WorkedNumber

INCH, FOOT, POUND, GALLON, GRAVITY = 0.0254, 0.3048, 0.45359237, 231 * 0.0254**3, 9.80665
LBF, PSI = POUND * GRAVITY, POUND * GRAVITY / INCH**2
UNITS = {
    "": 1.0, "%": 0.01, "bar": 1e5, "bar abs": 1e5, "psi": PSI, "psi abs": PSI, "GPa": 1e9,
    "mm": 1e-3, "m": 1.0, "in": INCH, "ft": FOOT, "µm": 1e-6, "cm²": 1e-4, "in²": INCH**2, "L": 1e-3, "gal": GALLON,
    "L/min": 1e-3 / 60, "gpm": GALLON / 60, "in³/rev": INCH**3, "cm³/rev": 1e-6, "rpm": 1 / 60, "Kv": 1.0,
    "kN": 1e3, "N": 1.0, "lbf": LBF, "N·m": 1.0, "ft·lbf": FOOT * LBF, "kg": 1.0, "lb": POUND, "kg/m³": 1.0,
    "lb/ft³": POUND / FOOT**3, "mm²/s": 1e-6, "s": 1.0, "min": 60.0, "m/s": 1.0, "ft/s": FOOT, "m/s²": 1.0,
    "J": 1.0, "kJ": 1e3, "kW": 1e3, "hp": 550 * FOOT * LBF, "V": 1.0, "A": 1.0, "Hz": 1.0, "K": 1.0, "°": math.pi / 180,
    "1/K": 1.0, "1/degF": 1.8, "bar/K": 1e5, "psi/°F": PSI * 1.8, "mm/K": 1e-3, "in/°F": INCH * 1.8,
    "kJ/(kg·K)": 1e3, "turn": 1.0,
}  # fmt: skip
_NUMBER = re.compile(r"([−-]?[\d.]+(?:e[+-]?\d+)?)\s*(.*?)(?: \(| ≈|$)")
# A difference of temperatures has the sign of degrees too: only the formula tells.
DIFFERENCES = ("ΔT = p/(ρ·c)", "ΔT = (p_max − p)/(dp/dT)")
_TITLES = tuple(source.title for source in SOURCES.values())


@dataclass(frozen=True)
class Printed:
    """A number as it is printed, SI, and half of its last digit."""

    value: float
    half: float


def read(text: str, *, difference: bool = False) -> Printed | None:
    """Read the number a printed text begins with; ``None`` where it is words. A printed 0 is nothing at all."""
    found = _NUMBER.match(text)
    if found is None:
        return None
    digits, unit = found[1].replace("−", "-"), found[2].strip()
    places = len(digits.partition("e")[0].partition(".")[2]) - int(digits.partition("e")[2] or 0)
    number, half = float(digits), 0.5 * 10.0**-places
    if unit in {"°C", "°F"}:
        factor = 1.0 if unit == "°C" else 1 / 1.8
        zero = 0.0 if difference else 273.15 - (32 * factor if unit == "°F" else 0.0)
        return Printed(number * factor + zero, half * factor)
    if unit not in UNITS:
        return None
    return Printed(number * UNITS[unit], half * UNITS[unit] if number else 0.0)


def exact(given: WorkedInput) -> bool:
    """Whether it is a fact as it was written, a constant, or a count: not rounded by the program."""
    return ".yaml:" in given.origin or given.value.isdigit() or given.origin.startswith(_TITLES)


def friction_loss(q: float, length: float, inside: float, viscosity: float, density: float) -> float:
    velocity = 4 * q / (math.pi * inside**2)
    reynolds = velocity * inside / viscosity
    laminar, factor = 64 / reynolds, 0.02
    for _ in range(100):
        factor = (-2 * math.log10(1.5e-6 / inside / 3.7 + 2.51 / (reynolds * math.sqrt(factor)))) ** -2
    used = laminar if reynolds <= 2000 else factor if reynolds >= 4000 else max(laminar, factor)
    return used * length / inside * density * velocity**2 / 2


def walther(v: float) -> float:
    return math.log10(math.log10(v * 1e6 + 0.7))


def viscosity(t: float, t1: float, v1: float, t2: float, v2: float) -> float:
    share = (math.log10(t) - math.log10(t1)) / (math.log10(t2) - math.log10(t1))
    return (10 ** (10 ** (walther(v1) + share * (walther(v2) - walther(v1)))) - 0.7) * 1e-6


def temperature(v: float, t1: float, v1: float, t2: float, v2: float) -> float:
    share = (walther(v) - walther(v1)) / (walther(v2) - walther(v1))
    return 10 ** (math.log10(t1) + share * (math.log10(t2) - math.log10(t1)))


def iec_factor(reynolds: float, kv: float, recovery: float, seat: float) -> float:
    ratio = kv / (seat * 1e3) ** 2
    trim = 1 + 140 * ratio ** (2 / 3) if ratio < 0.865 * 0.016 else 0.0016 / ratio**2
    low = 0.026 * math.sqrt(trim * reynolds) / recovery
    high = 1 + 0.33 * math.sqrt(recovery) * trim**-0.25 * math.log10(reynolds / 1e4) if reynolds >= 10 else 1.0
    return min(low, high, 1.0)


def barrel(b: float, a: float, k: float, inside: float, outside: float, e: float, mu: float) -> float:
    walls = 2 / e * ((outside**2 + inside**2) / (outside**2 - inside**2) + mu)
    return (b - 3 * a) / (1 / k + walls)


def squeezed(patm: float, space: float, swing: float, n: float) -> float:
    return patm * ((space / (space - swing)) ** n - 1)


def up(x: float, step: float) -> float:
    return math.ceil(x / step - 1e-9) * step


def down(x: float, step: float) -> float:
    return math.floor(x / step + 1e-9) * step


def rod_length(a: float, b: float, c: float, d: float, t: float) -> float:
    return math.hypot(a - (c * math.cos(t) - d * math.sin(t)), b - (c * math.sin(t) + d * math.cos(t)))


def rod_lever(a: float, b: float, c: float, d: float, t: float) -> float:
    along, out = c * math.cos(t) - d * math.sin(t), c * math.sin(t) + d * math.cos(t)
    return (a * out - b * along) / rod_length(a, b, c, d, t)


# The formula as the sheet prints it, up to its first comment → the same written again; arguments in the printed order.
TRAVEL = "p_tl = p_least up to a whole Δ, or p_wind up to a whole Δ as far as p_stop − Δ goes; p_R at most"
MINUTES = "t_min = t up to a whole t_1"
LOOK = "h = h_low + k(h_0 − h_low) up to a whole δ"
SET_LEAST = "p_l = p down to a whole Δ, less Δ, none below zero"
LEFT = "p_w = the greater of p_least and p_tl up to a whole Δ, p_R down to a whole Δ at most"
READ_MOST = "p_read = p + cl·p_fs/100 + Δ/2 up to a whole Δ"
READ_LEAST = "p_read = p − cl·p_fs/100 − Δ/2 down to a whole Δ, 0 at least"
FORMULAS: dict[str, Callable[..., float]] = {
    "sum of the parts": lambda *parts: math.fsum(parts),
    "value + tolerance": lambda v: v,
    "u = √k·δh/√12": lambda h, k: math.sqrt(k / 12) * h,
    "u = cl·p_fs/√3": lambda c, p: c * p / 3**0.5,
    "u = a·ν/2": lambda v, a: a * v / 2,
    "u = a·V/√3": lambda v, a: a * v / 3**0.5,
    "V_l = ℓ·πd_i²/4": lambda length, d: length * math.pi * d * d / 4,
    "Re = 4q/(πd_i·ν) ≤ 2000": friction_loss,
    "Δp = Δp_0 (q/q_0)²": lambda p, q0, q: p * (q / q0) ** 2,
    "p_in = p_tank − Δp_h − Δp_l − Δp_s − ρv²/2": lambda p, h, ln, s, r, v: p - h - ln - s - r * v * v / 2,
    "F_w = q_w·c·W·H": lambda q, c, w, h: q * c * w * h,
    "p_least = f·p_P": lambda f, p: f * p,
    "log log Z = A − B log T through (T_1, ν_1) and (T_2, ν_2)": viscosity,
    "log log Z = A − B log T, solved for T": temperature,
    "t = k·V/Q": lambda k, v, q: k * v / q,
    "V_d = Q(t_1 + n·t_h)": lambda first, n, each, q: q * (first + n * each),
    "V_k = k·V": lambda k, v: k * v,
    "V_out = V_d − V, none below zero": lambda drawn, taken: max(drawn - taken, 0.0),
    "V_r = V_b(1 − f) − V_0, none below zero": lambda size, free, cover: max(size * (1 - free) - cover, 0.0),
    "t = t_r + N·max(t_s, t_p) + N(d − 1)·t_p": lambda run, n, d, settle, rest: (
        run + n * max(settle, rest) + n * (d - 1) * rest
    ),
    "t_1 = t/N": lambda t, n: t / n,
    "t_h = (t − t_1)/n, none below zero": lambda t, first, n: max(t - first, 0.0) / n,
    "t_p = t_s − t_r, none below zero": lambda spacing, run: max(spacing - run, 0.0),
    "Δh = h_full − h": lambda full, h: full - h,
    "V_s = N·A·Δx": lambda n, a, x: n * a * x,
    "p_o = p_R/(1 + o)": lambda p, o: p / (1 + o),
    "f = p_set/p": lambda s, p: s / p,
    "p = F/(η_s·A)": lambda f, a, e: f / (e * a),
    "Q = D·N_rpm·η_v": lambda d, n, e: d * n * e,
    "t = N·A·Δx/Q": lambda n, a, x, q: n * a * x / q,
    "V = V_full − ΔV": lambda full, d: full - d,
    "x = L − L_ret": lambda long, short: long - short,
    "n = V_order/V_c, up to a whole number": lambda v, c: math.ceil(v / c),
    "v = 4q/(πd_i²)": lambda q, d: 4 * q / (math.pi * d * d),
    "ΔV = V (C_1/C_2 − 1)": lambda v, c1, c2: v * (c1 / c2 - 1),
    "q_w = ½ρ_air·v²": lambda r, v: r * v * v / 2,
    "p_P = p_load + Δp_feed + p_refl": lambda a, b, c: a + b + c,
    "p_stop = Δ·(p/Δ down to a whole number)": lambda p, d: math.floor(p / d + 1e-9) * d,
    "V_d = V_l + V_ch (1 − p_atm/(p_atm + p))": lambda ln, ch, a, p: ln + ch * (1 - a / (a + p)),
    "U = U_n (1 + δ)": lambda u, d: u * (1 + d),
    "F = k·R/(n·η); 0 where R < 0": lambda r, k, n, e: k * max(0.0, r) / (n * e),
    "F_E = π³·E·d⁴/(64 L²)": lambda e, d, ln: math.pi**3 * e * d**4 / (64 * ln * ln),
    "F_cr = π³·E·d⁴/(64 L²)": lambda e, d, ln: math.pi**3 * e * d**4 / (64 * ln * ln),
    "F_cr = (πd²/4)·R_e·[1 − R_e·λ²/(4π²E)], λ = 4L/d": lambda y, e, d, ln: (
        math.pi * d * d / 4 * y * (1 - y * (4 * ln / d) ** 2 / (4 * math.pi**2 * e))
    ),
    "λ_E = √(2π²E/R_e)": lambda e, y: math.pi * math.sqrt(2 * e / y),
    "p_X = p_Y + Δp_v": lambda y, v: y + v,
    "F = η_s·p·A; 0 where p < 0": lambda p, a, e: e * max(0.0, p) * a,
    "v_max = v_1 √(R_left/R_1); 0 where nothing is left": lambda left, one, v: v * math.sqrt(max(0.0, left) / one),
    "φ = A_w/A_r": lambda a, b: a / b,
    "F = R/(n·|r|); 0 where R < 0": lambda r, lever, n: max(0.0, r) / (n * abs(lever)),
    "Q_ret = Q·φ": lambda q, r: q * r,
    "p = F/A": lambda f, a: f / a,
    "p = p_a + p_g;  E = p_a·V_0 [ln(p/p_a) − 1 + p_a/p]": lambda a, v, g: (
        a * v * (math.log((a + g) / a) - 1 + a / (a + g))
    ),
    "L = L_ret + r_1": lambda a, b: a + b,
    "F_μ = μ_w·F_w": lambda f, m: m * f,
    "N = n·n_leaves": lambda a, b: a * b,
    "A_c = πD²/4": lambda d: math.pi * d * d / 4,
    "A_rod = πd²/4": lambda d: math.pi * d * d / 4,
    "s_used = L_max − L_min": lambda a, b: a - b,
    "A_w = A": lambda a: a,
    "V_dead = N·V_d": lambda n, v: n * v,
    "V_order = (V_fill + V_lost)(1 + r)": lambda a, b, r: (a + b) * (1 + r),
    "V_over = V_full + V_s − V_brim": lambda a, b, c: a + b - c,
    "H = r·z/(r + z)": lambda z: 101_325 * (1 - 0.0065 * (6_356_766 * z / (6_356_766 + z)) / 288.15) ** 5.25588,
    "V_g = V_brim − V_full": lambda a, b: a - b,
    "ΔT = t − 15 °C;  C_TL = exp[−α₁₅ΔT (1 + 0.8 α₁₅ΔT)]": lambda a, t: math.exp(
        -a * (t - 288.15) * (1 + 0.8 * a * (t - 288.15))
    ),
    "ρ = ρ₁₅ C_TL": lambda r, c: r * c,
    "Δp_h = ρ·g·h": lambda r, g, h: r * g * h,
    "Δp_s = Δp_0·ν/ν_0": lambda p, v0, v: p * v / v0,
    "V_u = V_full − V_low": lambda a, b: a - b,
    "V_u/V_1": lambda a, b: a / b,
    "Δp_v = 1 bar · (ρ/1000)(q/Kv)²": lambda q, k, r: 1e5 * r / 1000 * (q * 3600 / k) ** 2,
    "F_d = 2.5 √(Kv·F_L)/d_s, 1 at most": lambda k, f, d: min(1.0, 2.5 * math.sqrt(k * f) / (d * 1e3)),
    "Re_v = 0.0707 F_d·q/(ν √(Kv·F_L))": lambda q, v, k, f, s: 0.0707 * s * q * 3600 / (v * math.sqrt(k * f)),
    "n = 1 + 140 (Kv/d_s²)^(2/3), where Kv/d_s² ≥ 0.0138": iec_factor,
    "Δp_v = Δp_t/F_R²": lambda p, f: p / f**2,
    "r_1 = L_min − L_ret": lambda a, b: a - b,
    "r_2 = L_ret + s − L_max": lambda a, b, c: a + b - c,
    "r_d = L_ret − s − L_dead": lambda a, b, c: a - b - c,
    "ΔV_cold = −ΔV": lambda v: -v,
    "f = (V_brim − V_full − ΔV_hot)/V_brim": lambda a, b, c: (a - b - c) / a,
    "t = V/Q": lambda v, q: v / q,
    "p_R = p": lambda p: p,
    "p_ff = p_set": lambda p: p,
    "p_left = p_set/f − Δp_feed − p_refl": lambda s, f, a, b: s / f - a - b,
    "n_E = F_E/(p·A)": lambda f, p, a: f / (p * a),
    "n_cr = F_cr/(p·A)": lambda f, p, a: f / (p * a),
    "λ = 4L/d": lambda ln, d: 4 * ln / d,
    "v_rod = Q/(N·A)": lambda q, n, a: q / (n * a),
    "v_rod = q/A": lambda q, a: q / a,
    "V_s/V_l": lambda a, b: a / b,
    "T_m = (T_1 + T_2)/2": lambda a, b: (a + b) / 2,
    "ΔT = t − 15 °C;  β = −d ln C_TL/dt = α₁₅ (1 + 1.6 α₁₅ΔT)": lambda a, t: a * (1 + 1.6 * a * (t - 288.15)),
    "1/K_c = (2/E)[(D_o² + D²)/(D_o² − D²) + μ]": barrel,
    "dp/dT = (β − 3α_s)/(1/K + 1/K_c)": lambda b, a, k, c: (b - 3 * a) / (1 / k + 1 / c),
    "ΔT = (p_max − p)/(dp/dT)": lambda m, p, d: (m - p) / d,
    "u = √k·δh·A_t/√12": lambda h, a, k: math.sqrt(k / 12) * h * a,
    "ΔV_hose = V_hose·Δp/K_h": lambda v, p, k: v * p / k,
    "ΔV_oil = V_oil·Δp/K": lambda v, p, k: v * p / k,
    "P = p·D·N_rpm/η_hm": lambda p, d, n, e: p * d * n / e,
    "δ = U/U_n − 1": lambda u, n: u / n - 1,
    "p/p_fs": lambda a, b: a / b,
    "Δp = the smaller of p_R − p_least and p_most − p_R;  d/Δp": lambda d, r, least, most: d / min(r - least, most - r),
    "V = V_full + ΔV_hot": lambda a, b: a + b,
    "V = V_full − V_d, V_low at least": lambda a, b, low: max(a - b, low),
    TRAVEL: lambda p, wind, stop, d, r: min(max(up(p, d), min(up(wind, d), down(stop, d) - d)), down(r, d)),
    "p_travel = p_tl + Δ, p_R at most": lambda p, d, r: min(p + d, r),
    MINUTES: lambda t, m: up(t, m),
    LOOK: lambda low, right, k, d: up(low + k * (right - low), d),
    SET_LEAST: lambda p, d: max(0.0, down(p, d) - d),
    LEFT: lambda p, t, d, r: min(up(max(p, t), d), down(r, d)),
    READ_MOST: lambda p, c, s, d: up(p + c / 100 * s + d / 2, d),
    READ_LEAST: lambda p, c, s, d: max(0.0, down(p - c / 100 * s - d / 2, d)),
    "F_W = M_w/a": lambda m, a: m / a,
    "F_W = F_g/u": lambda f, u: f / u,
    "P_b = P, n·p_b·A at most either way": lambda f, n, p, a: math.copysign(min(abs(f), n * p * a), f),
    "I_o = 1.25·I_n where SF ≥ 1.15, else 1.15·I_n": lambda i, s: i * (1.25 if s >= 1.15 else 1.15),
    "ΔT = p/(ρ·c)": lambda p, r, c: p / (r * c),
    "ds/dT = (β − 3α_s)·V/(n·A)·(a/L′)": lambda b, a, v, n, area, r: (b - 3 * a) * v / (n * area) * r,
    "dh/dT = β·V/A_t": lambda v, b, a: b * v / a,
    "h = h_0 − δ": lambda h, d: h - d,
    "N_0 = 2f/p": lambda f, p: 2 * f / p,
    "f_o = f(1 + o)": lambda f, o: f * (1 + o),
    "f_o = the greater of f and 1 + o": lambda f, o: max(f, 1 + o),
    "p_mid = (p_travel + p_R)/2 down to a whole Δ, p_travel at least": lambda t, r, d: max(
        math.floor((t + r) / 2 / d + 1e-6) * d, t
    ),
    "U = 2√(u_poured² + u_level² + u_lines²)": lambda a, b, c: 2 * math.sqrt(a * a + b * b + c * c),
    "U = 2√(u_level² + u_oil² + u_hose²)/(1 − p_1/p_2)": lambda a, b, c, p1, p2: (
        2 * math.sqrt(a * a + b * b + c * c) / (1 - p1 / p2)
    ),
    "T = T_0 + ΔT": lambda t, d: t + d,
    "L = √((A − a cos θ + b sin θ)² + (B − a sin θ − b cos θ)²)": rod_length,
    "a′ = a cos θ − b sin θ, b′ = a sin θ + b cos θ": rod_lever,
    "p = p_atm {[V_g/(V_g − V_s)]^n − 1}": squeezed,
    "p = the smaller of p_open and p_atm {[V_g/(V_g − V_s)]^n − 1}": lambda a, v, s, n, o: min(o, squeezed(a, v, s, n)),
    "p = the smaller of p_open and p_atm [V_g/(V_g − ΔV_hot)·T_h/T_f − 1]": lambda a, v, d, f, h, o: min(
        o, a * (v / (v - d) * h / f - 1)
    ),
    "p_abs = p_atm·V_g/(V_g + V_s)": lambda p, a, b: p * a / (a + b),
    "F_i = p_cap·A_c − p_rod·A_r": lambda p, q, a, b: p * a - q * b,
    "θ = θ_0 + u(θ_1 − θ_0)": lambda a, b, u: a + u * (b - a),
    "p_refl = p_back·A_back/A_fed": lambda p, a, b: p * a / b,
    "R_left = n·F·|r| − R_0": lambda f, r, n, z: n * f * abs(r) - z,
    "R_left = n·η·F/k − R_0": lambda f, k, n, e, z: n * e * f / k - z,
    "R_left = m·g·η − F_f": lambda m, g, e, f: m * g * e - f,
    "p_E = F_E/A": lambda f, a: f / a,
    "p_cr = F_cr/A": lambda f, a: f / a,
    "p_most = p_E/f": lambda p, f: p / f,
    "p_most = p_cr/f": lambda p, f: p / f,
    "p_most = (p_max − p_over)/φ": lambda p, r, over: (p - over) / r,
    "p_c = p_r/φ": lambda p, r: p / r,
    "q = Q/N": lambda q, n: q / n,
    "V_1 = V/N": lambda v, n: v / n,
    "p_leaf = k(m·g·η − F_f)/(n·A)": lambda k, m, g, e, f, n, a: k * (m * g * e - f) / (n * a),
    "F_i = p·A": lambda p, a: p * a,
    "F_i = −p·A_r": lambda p, a: -p * a,
    "ΣF = n·F_i": lambda n, f: n * f,
    "A_r = A_c − A_rod": lambda a, b: a - b,
    "ΔA = A_1 − A_2": lambda a, b: a - b,
    "V_cap = N·A_c·x": lambda n, a, s, x: n * a * x,
    "V_rod = N·A_r (s − x)": lambda n, a, s, x: n * a * (s - x),
    "V_cap = N[(A_bore − A_d)s + A_d·x]": lambda n, a, d, s, x: n * ((a - d) * s + d * x),
    "α₁₅ = 0.6278/ρ₁₅": lambda r: 0.6278 / r,
    "p_r = φ·p_ff + p_over": lambda r, f, o: r * f + o,
    "F = p·A": lambda p, a: p * a,
    "p_abs = p + p_atm": lambda a, b: a + b,
    "p_abs = p_atm − p_in": lambda a, b: a - b,
    "V_ch = V_0 − V_l": lambda a, b: a - b,
    "p = p_g, p_stop at most": min,
    "ΔV_air = V_air [1 − (p_1/p_2)^(1/n)]": lambda v, a, b, n: v * (1 - (a / b) ** (1 / n)),
    "Δh = (ΔV_air + ΔV_oil + ΔV_hose)/A_t": lambda a, b, c, s: (a + b + c) / s,
    "Δh = (ΔV_oil + ΔV_hose)/A_t": lambda a, b, s: (a + b) / s,
    "E = m·g·Δh": lambda m, g, h: m * g * h,
    "E_cu = n·E_1": lambda e, n: n * e,
    "L = L_in + s_leaf/k": lambda a, s, k: a + s / k,
    "v_edge = k·v_rod": lambda v, k: k * v,
    "E = ½m·v²": lambda m, v: m * v * v / 2,
    "M_w = F_w·H/2": lambda f, h: f * h / 2,
    "M_w = F_w·W(½ + e)": lambda f, w, e: f * w * (0.5 + e),
    "G = m·g(a_cg sin θ + b_cg cos θ)": lambda m, g, a, b, t: m * g * (a * math.sin(t) + b * math.cos(t)),
    "G = m·g·√(a_cg² + b_cg²)·sin α": lambda m, g, a, b, t: m * g * math.hypot(a, b) * math.sin(t),
    "G = m·g·sin β": lambda m, g, b: m * g * math.sin(b),
    "G = m·g": lambda m, g: m * g,
    "F_f = μ_r·m·g": lambda m, g, c: c * m * g,
    "v_edge = v_rod·a/r": lambda v, a, r: v * a / r,
    "E = ½Jω², J = m·a²/3, ω = v_edge/a": lambda m, a, v: m * a * a / 3 * (v / a) ** 2 / 2,
    "M = F·W": lambda f, w: f * w,
    "F_stop = n·F·|r|/a": lambda n, f, r, a: n * f * abs(r) / a,
    "F_stop = n·F/k": lambda n, f, k: n * f / k,
    "F_g = q_w·c·H·b": lambda q, c, h, b: q * c * h * b,
    "u = (V_most − V)/√3": lambda v, m: (m - v) / 3**0.5,
    "Δh = s_leaf": lambda s: s,
    "Q = V/t": lambda v, t: v / t,
    "q = (Q/N)(1 + e)": lambda q, n, e: q / n * (1 + e),
    "−G": lambda g: -g,
    "s_lag = s·2e/(1 + e)": lambda s, e: s * 2 * e / (1 + e),
    "δ = arctan(s_lag/W)": math.atan2,
    "Δh = r[cos(θ_0 + γ) − cos(θ_1 + γ)]": lambda a, b, t, u: (
        math.hypot(a, b) * (math.cos(t + math.atan2(b, a)) - math.cos(u + math.atan2(b, a)))
    ),
    "θ_n = −atan(b_cg/a_cg)": lambda a, b: -math.atan2(b, a),
    "F_u = η·F": lambda f, e: f * e,
    "dT/dt = p·Q/(ρ·c·V)": lambda p, q, r, c, v: p * q / (r * c * v),
    "V_e = V_h·K/K_h": lambda v, h, k: v * k / h,
    "up to 500 psi, and return lines: 15 ft/s;  up to 3 000 psi: 20 ft/s;  above: 25 ft/s": lambda p: (
        FOOT * (15 if p <= 500 * PSI else 20 if p <= 3000 * PSI else 25)
    ),
    "m = n V ρ₁₅": lambda n, v, r: n * v * r,
}

# Rounded on purpose to a whole step: a hair's breadth may decide, so only nominal numbers are compared.
WHOLE_STEPS = {
    "n = V_order/V_c, up to a whole number",
    "p_stop = Δ·(p/Δ down to a whole number)",
    TRAVEL,
    MINUTES,
    LOOK,
    SET_LEAST,
    LEFT,
    READ_MOST,
    READ_LEAST,
    "p_mid = (p_travel + p_R)/2 down to a whole Δ, p_travel at least",
}
# Picked, stated or counted: nothing to calculate.
PICKED = {"the most of the candidates": max, "the least of the candidates": min}
STATED = ("value + tolerance", "value − tolerance", "the unfavourable end of what may be")


def written_again(formula: str) -> Callable[..., float] | None:
    """Find the formula among ours: the longest one that the printed one begins with, comments left off."""
    if formula.endswith(", solved for T"):
        return FORMULAS["log log Z = A − B log T, solved for T"]
    fitting = [key for key in FORMULAS if formula == key or (formula.startswith(key) and formula[len(key)] in ",;: ")]
    return FORMULAS[max(fitting, key=len)] if fitting else None


def numbers_of(line: WorkedNumber) -> list[Printed] | None:
    """Return what was put in, in the printed order; ``None`` where a structure or words went in."""
    found = []
    for given in line.inputs:
        if given.sign or given.meaning:
            number = read(given.value)
            if number is None:
                return None
            found.append(Printed(number.value, 0.0) if exact(given) else number)
    return found or None


def calculated(formula: Callable[..., float], numbers: list[Printed]) -> Printed:
    """Put the printed numbers in; and how far the outcome moves when each is off by half of its last digit."""
    values = [number.value for number in numbers]
    outcome = formula(*values)
    reach = 0.0
    for place, number in enumerate(numbers):
        if number.half:
            moved = [
                formula(*values[:place], number.value + sign * number.half, *values[place + 1 :]) for sign in (1, -1)
            ]
            reach += max(abs(one - outcome) for one in moved)
    return Printed(outcome, reach)


def arithmetic(line: WorkedNumber) -> tuple[list[Printed], Printed] | None:
    """Return what went into a line and what came out, where both are numbers."""
    numbers, result = numbers_of(line), read(line.result, difference=line.formula in DIFFERENCES)
    counted = not line.source or line.formula in STATED
    return None if numbers is None or result is None or counted else (numbers, result)


# Where two numbers of nearly one size are taken from each other, six digits leave three or four: 0.2 %. The sheet
# prints two or three digits of what comes out.
ENOUGH = 2e-3


@pytest.fixture(scope="module")
def lines(sheets):
    """Every line of the working of every job that is plain arithmetic, with its numbers."""
    return [
        (job, line, *both)
        for job, sheet in sheets.items()
        for line in sheet.working
        if (both := arithmetic(line)) is not None
    ]


def described(job: str, line: WorkedNumber) -> str:
    put_in = ", ".join(f"{given.sign} = {given.value}" for given in line.inputs)
    return f"{job}, {line.name}: {line.formula} with {put_in} is printed as {line.result}"


def test_a_reader_gets_the_printed_number(lines):
    wrong, formulas = [], set()
    for job, line, numbers, printed in lines:
        formula = written_again(line.formula)
        if formula is None:
            continue
        formulas.add(line.formula)
        found = calculated(formula, numbers)
        reach = 0.0 if line.formula in WHOLE_STEPS else found.half
        # A billionth for the binary fractions of the printed digits themselves.
        if abs(found.value - printed.value) > reach + printed.half + 1e-9 * abs(printed.value):
            wrong.append(f"{described(job, line)}; a calculator gets {found.value:.6g} in SI units")
    assert not wrong, "\n".join(wrong)
    assert len(formulas) >= 100, "fewer formulas are worked again than there are"


def test_every_line_of_plain_arithmetic_is_written_again(lines):
    unknown = {
        line.formula for _, line, _, _ in lines if line.formula not in PICKED and not written_again(line.formula)
    }
    assert not unknown, f"not written again in this file: {sorted(unknown)}"


def test_the_printed_digits_are_enough(lines):
    coarse = []
    for job, line, numbers, printed in lines:
        formula = written_again(line.formula)
        whole = line.formula in WHOLE_STEPS or line.result.isdigit()
        if formula is None or whole or not printed.value:
            continue
        share = (calculated(formula, numbers).half + printed.half) / abs(printed.value)
        if share > ENOUGH:
            coarse.append(f"{described(job, line)}; its printed digits leave {share:.1%} open")
    assert not coarse, "\n".join(coarse)


def test_the_least_and_the_most_are_what_they_say(lines):
    """Where all candidates are printed the result is the least or greatest; of many, the one that was taken."""
    seen = 0
    for job, line, numbers, printed in lines:
        pick = PICKED.get(line.formula)
        if pick is not None:
            best = pick(number.value for number in numbers)
            room = printed.half + max(number.half for number in numbers)
            assert abs(best - printed.value) <= room * 1.0001, described(job, line)
            seen += 1
    assert seen > 50


def test_what_goes_in_was_worked_out_above(sheets):
    """A number that comes from another line is what that line gives, so that a reader can go on from line to line."""
    lost = []
    for job, sheet in sheets.items():
        results: dict[str, set[str]] = {}
        for line in sheet.working:
            results.setdefault(line.name, set()).add(line.result.partition(" ≈ ")[0])
        for line in sheet.working:
            if line.formula not in PICKED:  # of candidates, only the one that was taken is worked out
                lost += [
                    f"{described(job, line)}; {given.origin} is {sorted(results[given.origin])}"
                    for given in line.inputs
                    if given.origin in results and given.value not in results[given.origin]
                ]
    assert not lost, "\n".join(lost)


def test_a_wrong_number_would_be_seen(lines):
    """The comparison can fail: half a per cent more in one input of a product is found in every job."""
    for job in {job for job, *_ in lines}:
        line, numbers, printed = next(
            (line, numbers, printed)
            for where, line, numbers, printed in lines
            if where == job and line.formula == "p = F/(η_s·A)" and printed.value
        )
        force, *rest = numbers
        found = calculated(FORMULAS[line.formula], [Printed(force.value * 1.005, force.half), *rest])
        assert abs(found.value - printed.value) > found.half + printed.half, described(job, line)


@pytest.mark.parametrize(
    ("text", "value", "half"),
    [
        ("1150 psi (79.290 bar)", 1150 * PSI, 0.5 * PSI),
        ("−583.50 N·m", -583.50, 0.005),
        ("23.587 L ≈ 23.6 L (6.25 gal)", 23.587e-3, 0.5e-6),
        ("−8 °C", 265.15, 0.5),
        ("212 °F", 373.15, 0.5 / 1.8),
        ("1.2e-05 1/K", 1.2e-5, 0.5e-6),
        ("1.9 kJ/(kg·K)", 1900.0, 50.0),
        ("0 L", 0.0, 0.0),
    ],
)
def test_printed_numbers_are_read(text, value, half):
    found = read(text)
    assert found is not None
    assert found.value == pytest.approx(value, rel=1e-12)
    assert found.half == pytest.approx(half, rel=1e-9)


def test_words_are_no_numbers():
    assert read("the leaf and its cylinders") is None
    assert read("6.07 L come into an air space of 4.50 L: oil against a shut tank") is None
