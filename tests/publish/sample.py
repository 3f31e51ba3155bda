"""An invented sheet made by hand, with every kind of part a sheet can have: what publishing is tested against.

Nothing in it is computed and nothing in it is true; only its shape matters.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from firstfill.sheet.document import (
    Block,
    Box,
    Caution,
    Circuit,
    HeadNumber,
    Identity,
    IfNot,
    Phase,
    Sheet,
    State,
    Step,
    Table,
    Timer,
    VerdictLine,
    WorkedInput,
    WorkedNumber,
)

ROOT = Path(__file__).parents[2]

UNPROVED = State("unknown", "unknown", "anywhere", "power not proved · pressure not proved · leaf anywhere")
LOCKED = State("locked", "zero", "held", "power locked and tried · pressure zero · leaf held on its stop")
ON = State("on", "low", "held", "power on · low pressure · leaf held on its stop")


def read_labels() -> dict[str, str]:
    """Read the words of the page where the product keeps them."""
    found: dict[str, str] = {}
    for line in (ROOT / "content/en/labels.md").read_text(encoding="utf-8").splitlines():
        key, colon, text = line.partition(": ")
        if colon and not line.startswith(("#", " ", "<")):
            found[key] = text
    return found


def caution(signal: str = "WARNING", symbol: str = "crushing") -> Caution:
    return Caution(
        f"{signal}-{symbol}".lower(),
        signal,  # type: ignore[arg-type]  # the tests pass each signal word in turn
        "A leaf that is not held can move when a valve is opened or the wind takes it.",
        "It crushes whoever works at the cylinders.",
        "Have it on its stop, locked and at zero before you go in, and fit the restraint first.",
        symbol,
    )


def take_charge() -> Phase:
    plates = Step(
        "take.plates",
        "1.1",
        "Installer",
        "outside the line",
        "Compare the plates of the unit and the door with the top of page 1.",
        "The unit is a Turnstone, revision C; the door is “Tilt-up 8 × 3”.",
        boxes=(
            Box("Serial number of the unit", "", id="take.plates.1"),
            Box("Serial number of the door", "", id="take.plates.2"),
        ),
        if_not=IfNot(
            "This sheet is for another unit or another door. Stop: lock out (LO), tag the unit, call.", ending="stop"
        ),
        before=UNPROVED,
        after=UNPROVED,
    )
    weather = Step(
        "take.weather",
        "1.2",
        "Installer",
        "outside the line",
        "Read the wind at the door and the temperature of the oil in its cans.",
        "Both are inside the limits. Tick your band in the table of temperature bands.",
        boxes=(
            Box("Wind", "m/s", "at most 8 m/s", "leaf.wind_working", "take.weather.1", None, 8.0),
            Box("Oil", "°C", "at least −5 °C", "oil.coldest_use", "take.weather.2", -5.0, None),
            Box("Air", "°C", id="take.weather.3"),
        ),
        if_not=IfNot("Keep the oil warm, or wait for the wind to drop. Wait, then do this step again.", ending="wait"),
        before=UNPROVED,
        after=UNPROVED,
        findings=("leaf.wind_working", "oil.coldest_use"),
        notes=("The coldest day asked for lies only 2 °C above what this pump may start at.",),
    )
    rule = Step(
        "take.rule",
        "1.3",
        "Installer",
        "outside the line",
        "Say the leak rule aloud to everyone on site.",
        "Everyone says it back: cardboard finds leaks, never a hand.",
        before=UNPROVED,
        after=UNPROVED,
    )
    done = "Block complete: sheet, day, oil and danger line fit."
    block = Block(
        "take.sheet",
        "This sheet, this door, this day",
        "steps",
        UNPROVED,
        (plates, weather, rule),
        done,
        figures=("danger-line",),
    )
    return Phase("take", 1, "Take charge", "This sheet belongs to this door, and today is a day for it.", (block,))


def lockout_block(prefix: str, identity: str) -> Block:
    rows = (
        (
            "Tell everyone on site that your lock goes on now.",
            "Everyone has answered.",
            (Box("People told", "people", id=f"{identity}.b1"),),
        ),
        ("Stop the drive with the leaf on its closed stop.", "The leaf rests on its stop, the motor is silent.", ()),
        ("Open the isolator **MAIN**, wall box beside the unit.", "Its handle stands at off.", ()),
        (
            "Hang your own lock and tag on **MAIN**.",
            "The only key is in your pocket.",
            (Box("Time locked", "time", id=f"{identity}.b2"),),
        ),
        ("Let the pressure down at each place listed here, in this order.", "Every override is back where it was.", ()),
        ("Try to start the unit, then return the control to off.", "Nothing moves, hums or lights up.", ()),
        (
            "Read every gauge listed here.",
            "Every gauge stands at zero.",
            (Box("P1", "bar", "zero", id=f"{identity}.b3", least=0.0, most=0.0),),
        ),
    )
    steps = tuple(
        Step(
            f"{identity}.{place}",
            f"{prefix}{place}",
            "Installer",
            "controls" if place < 5 else "unit",
            do,
            expected,
            boxes,
            before=ON if place < 5 else LOCKED,
            after=ON if place < 4 else LOCKED,
            details={
                5: ("Lines: pin M of S1, S2, S1 again, 10 s each.",),
                7: ("**P1**, lines: while you press pin M of S2, then of S1",),
            }.get(place, ()),
            if_not=IfNot(f"Pressure is still trapped. Go back to {prefix}5.", f"{identity}.5", f"{prefix}5")
            if place == 7
            else None,
        )
        for place, (do, expected, boxes) in enumerate(rows, start=1)
    )
    return Block(identity, "Lock out", "lockout", ON, steps, "Locked out: power locked and tried, every gauge at zero.")


def release_block(prefix: str, identity: str) -> Block:
    rows = (
        ("Take tools, rags and cans out of the sweep of the leaf.", "The filler is shut; caps and guards are on."),
        ("Count the people behind the danger line.", "The number is that of everyone on site."),
        ("Take off your own lock and tag.", "None is left."),
        ("Call “power on” to everyone.", "Everyone has answered and stays behind the line."),
        ("Close the isolator **MAIN**.", "Nothing starts by itself."),
    )
    steps = tuple(
        Step(
            f"{identity}.{place}",
            f"{prefix}{place}",
            "Installer",
            "controls",
            do,
            expected,
            (Box("People behind the line", "people", id=f"{identity}.b1"),) if place == 2 else (),
            before=LOCKED,
            after=ON if place == 5 else LOCKED,
        )
        for place, (do, expected) in enumerate(rows, start=1)
    )
    return Block(
        identity, "Release", "release", LOCKED, steps, "Released: tools out, people counted, locks off, power on."
    )


def bleed() -> Phase:
    pour = Step(
        "bleed.pour",
        "7.1",
        "Installer",
        "unit",
        "Pour oil until the sight glass shows the level printed for the leaf closed.",
        "The level is **215 ± 2 mm**.",
        (Box("Oil poured", "L", id="bleed.pour.1"),),
        IfNot("Too high: draw oil off. Too low: pour on. Go back to 7.2.", "bleed.read", "7.2"),
        (caution("NOTICE", "general"),),
        LOCKED,
        LOCKED,
    )
    read = Step(
        "bleed.read",
        "7.2",
        "Installer",
        "unit",
        "Wait 5 min, then read the lower edge of the oil at eye level.",
        "The level is the printed one; foam stands only at the edge.",
        (
            Box(
                "Level, leaf closed",
                "mm",
                "213 to 217 mm",
                "reservoir.level_target_closed",
                "bleed.read.1",
                213.0,
                217.0,
            ),
        ),
        IfNot("The level is not the printed one. Go back to 7.1.", "bleed.pour", "7.1"),
        before=LOCKED,
        after=LOCKED,
        timers=(Timer("Let the level settle", 300.0),),
    )
    hold = Step(
        "bleed.towards",
        "7.8",
        "Installer",
        "controls",
        "Hold **S2** (close) until the first of the three limits.",
        "Gauge 10 to 12 bar; the leaf does not move.",
        (
            Box("Held", "s", "at most 85 s", "bleed.seconds_full_to_low", "bleed.towards.1", None, 85.0),
            Box("Gauge P1", "bar", "at most 26 bar", "bleed.stop_pressure", "bleed.towards.2", None, 26.0),
            Box("Level", "mm", "at least 85 mm", "", "bleed.towards.3", 85.0, None),
        ),
        IfNot("The leaf moves. Lock out (LO), then go back to 7.1.", "bleed.pour", "7.1", lockout=True),
        (caution(),),
        ON,
        ON,
        details=(
            "Limits: 85 s · level at MIN · gauge at 26 bar.",
            "All holds of this row together: at least 180 s.",
            "**Never** hold S1 (open) in this row.",
        ),
        timers=(Timer("Look at the level before", 85.0, most=True),),
    )
    stages = Table(
        "stages",
        "Stage table",
        (
            "Row",
            "Bleed valve",
            "Close S2",
            "Open S1",
            "Gauge",
            "Stop at the first of",
            "s · mm · gauge · L poured · foam",
        ),
        (
            (
                "1",
                "4 turns",
                "+2.6 to +4.1 kN: yes",
                "+1.9 to +4.5 kN: yes",
                "10 to 12 bar",
                "85 s · 85 mm · 26 bar",
                "",
            ),
            ("2", "2 turns", "+1.1 to +3.0 kN: yes", "**never**", "14 to 20 bar", "85 s · 85 mm · 26 bar", ""),
            ("3", "shut", "−20 kN: yes", "**never**", "rises to 26 bar", "85 s · 85 mm · 26 bar", ""),
        ),
        "Push of the rods on one leaf: plus is off the stop. The restraint must bear 2.3 kN.",
        ("", "never", "never"),
    )
    first = Block(
        "bleed.table",
        "Read this first",
        "pause",
        LOCKED,
        (),
        "Stage table read; the leaf is held by **HOLD**.",
        ("Pump towards the resting stop first: S2 (close).", "Air that was squeezed comes back as foam."),
        tables=(stages,),
    )
    fill = Block(
        "bleed.set",
        "Row 1: 4 turns",
        "steps",
        LOCKED,
        (pour, read),
        "Block complete: row 1 set, level read.",
        cautions=(caution("DANGER", "electricity"),),
    )
    release = release_block("7.", "bleed.release")
    release = replace(release, steps=tuple(replace(s, number=f"7.{i}") for i, s in enumerate(release.steps, start=3)))
    run = Block(
        "bleed.run", "Pump row 1", "steps", ON, (hold,), "Block complete: row 1 pumped.", figures=("sight-glass",)
    )
    lockout = lockout_block("7.", "bleed.lockout")
    lockout = replace(lockout, steps=tuple(replace(s, number=f"7.{i}") for i, s in enumerate(lockout.steps, start=9)))
    hold_point = Block(
        "bleed.hold",
        "Before the row is left",
        "hold",
        LOCKED,
        (
            Step(
                "bleed.hold.1",
                "7.16",
                "Installer",
                "unit",
                "Read gauge **P1**.",
                "It stands at zero.",
                (Box("P1", "bar", "zero", id="h1"),),
                before=LOCKED,
                after=LOCKED,
            ),
            Step(
                "bleed.hold.2",
                "7.17",
                "Second person",
                "outside the line",
                "Count the people.",
                "All are behind the line.",
                (Box("People", "people", id="h2"),),
                before=LOCKED,
                after=LOCKED,
            ),
        ),
        "Hold point passed: gauge zero, people counted.",
    )
    return Phase(
        "bleed",
        7,
        "Bleed",
        "Oil takes the place of the air, row by row of the stage table.",
        (first, fill, release, run, lockout, hold_point),
    )


def tables() -> dict[str, Table]:
    made = (
        Table(
            "levels",
            "Right level in the sight glass",
            ("Leaf", "Right level", "Use"),
            (("closed", "215 ± 2 mm", "pour to this"), ("open", "161 ± 2 mm", "read only, never pour to this")),
            "0.11 L per mm.",
            ("strong", ""),
        ),
        Table(
            "bands",
            "If you do not know the temperature: tick your band",
            ("Oil at filling", "Viscosity", "Gauge, row 1", "Tick"),
            (
                ("−5 to 5 °C", "180 to 110 mm²/s", "10 to 12 bar", ""),
                ("5 to 15 °C", "110 to 70 mm²/s", "8 to 10 bar", ""),
            ),
        ),
        Table(
            "people",
            "People",
            ("Who", "Must be", "For"),
            (
                ("Installer", "trained on this kind of unit; own lock, tag and key", "all phases"),
                ("Licensed electrician", "licence for this place", "phase 5"),
            ),
        ),
        Table(
            "tools",
            "Tools and material",
            ("What", "How many", "For"),
            (
                ("Lock, tag and hasp", "one each person", "every lockout"),
                ("Fill pump with filter, 10 µm or finer", "one", "every pour"),
            ),
        ),
        Table(
            "oil",
            "Oil",
            ("Container", "Bring", "Weight, all"),
            (("pail 20 L", "2", "36 kg"),),
            "One row is enough: 38 L in whole containers of one size.",
        ),
        Table(
            "energies",
            "Energies and how they are held",
            ("Energy", "How much", "Isolated by", "Where", "Held by", "Proved by"),
            (
                ("Electricity", "460 V, 3 phases", "MAIN", "wall box", "lock and tag", "start control tried"),
                ("Gravity", "420 kg, 1.9 m up", "stop", "leaf", "restraint HOLD", "seen"),
            ),
        ),
        Table(
            "trapped",
            "Closed volumes",
            ("Closed volume", "Way down, dead", "Gauge", "Read from"),
            (("lines", "pins M, pressed for 10 s", "P1", "unit"),),
        ),
        Table(
            "lines",
            "Lines as built",
            ("Line", "Where", "Length", "Inside", "Rated", "As built"),
            (("cap-hose", "block to cylinder", "6 m", "13 mm", "180 bar", "planned only: measure"),),
        ),
        Table(
            "locks", "Lock owners", ("Name", "Lock number", "On", "Off", "Handed over to"), (("", "", "", "", ""),) * 3
        ),
        Table(
            "read-again",
            "Read again",
            ("Step", "What", "Value", "Time"),
            (("",) * 4,) * 12,
            "What is read a second time.",
        ),
        Table(
            "trouble",
            "If something goes wrong",
            ("Sign", "Likely cause", "Look first", "Go on from"),
            (("Foam covers the oil", "air at the inlet", "level, inlet joints", "7.1"),),
            "Lock out before you look.",
        ),
        Table(
            "settings",
            "Set values",
            ("What", "Target", "Window", "Written"),
            (("Relief, final", "78 bar", "62 to 92 bar", ""), ("Air test", "58 bar", "", "")),
        ),
    )
    return {table.id: table for table in made}


def figures() -> tuple[Circuit, ...]:
    glass = {
        "title": "Sight glass",
        "description": "Low mark MIN 85 mm, full mark MAX 215 mm, leaf closed 215 ± 2 mm, leaf open 161 ± 2 mm.",
        "unit": "mm",
        "marks": [
            {"which": "low", "height": 85.0, "name": "low mark", "label": "MIN", "text": "85 mm"},
            {"which": "full", "height": 215.0, "name": "full mark", "label": "MAX", "text": "215 mm"},
            {"which": "brim", "height": 255.0, "name": "brim", "label": "rim of the filler neck", "text": "255 mm"},
        ],
        "levels": [
            {"height": 215.0, "name": "leaf closed", "text": "215 mm ± 2 mm", "fill": True},
            {"height": 161.0, "name": "leaf open", "text": "161 mm ± 2 mm", "fill": False},
        ],
        "floor": "Heights above the tank floor",
    }
    line = {
        "title": "Danger line",
        "description": "Plan: the leaf sweeps the area outside the opening, and the line stands around it.",
        "door": "tilt-up",
        "leaves": 1,
        "width": "8 m",
        "height": "3 m",
        "leaf_width": 8.0,
        "travel": 0.0,
        "extend": "opens",
        "leaf": "Leaf",
        "sweep": "Sweep: keep out",
        "line": "Danger line",
        "unit": "Unit",
        "isolator": "isolator MAIN, 3 m",
        "installer": "I",
        "second": "P",
        "second_at": "isolator",
        "third": "",
        "inside": "inside",
        "outside": "outside",
        "scale": "Not to scale",
    }
    return Circuit("sight-glass", glass), Circuit("danger-line", line)


def identity() -> Identity:
    return Identity(
        job="fennwick-boat-hall",
        number="LF-26-0199",
        title="Commissioning sheet LF-26-0199",
        site="Fennwick boat hall",
        site_words="Key at the ferry office. The slipway is wet until noon.",
        door="Tilt-up 8 × 3",
        unit="Turnstone",
        unit_revision="C",
        serial="TU-0417",
        serial_range="TU-0300 to TU-0899",
        fluid="Northmere HV 22",
        issued="2026-04-06",
        fingerprint="7f3a91c2",
        generator="firstfill 0.1.0",
        language="en",
        paper="A4",
        units=("metric", "us"),
        data_status="invented",
        maker=("Larkfold Doors", "support@larkfold.example"),
        dealer=("Fennwick Door Service", "desk@fennwick-doors.example"),
    )


def words() -> dict[str, tuple[str, ...]]:
    return {
        "first": (
            "Local codes, the component makers’ own limits and licensed practice come first.",
            "Electrical work is done only by a licensed electrician.",
        ),
        "limits": (
            "This sheet does not replace the employer’s own lockout procedure.",
            "The relief valve protects parts. It does not protect people caught by a leaf.",
        ),
        "printing": ("Print at full size. The proof bar must measure what stands beside it.",),
        "legend": (
            "Each step: number, role and place, one action, what must be seen, boxes for values.",
            "A blank box is a step not done.",
        ),
        "endings": (
            "**STOP** Lock out, tag the unit, call the maker or dealer. Nobody goes on.",
            "**HOME** Bring the leaf to its closed stop, lock out.",
        ),
        "lockout": ("One lockout serves everything that is to be done dead.",),
        "release": ("Told twice: before locks go on, and after they are off but before power is on.",),
        "card": (
            "Level: motor off, settled, eye level, leaf closed.",
            "No travel in wind above 8 m/s.",
            "Never feel for a leak. Cardboard only.",
        ),
        "record": ("One page to photograph. Every box holds a value, a date or a name; a tick is no value.",),
        "balance": ("Poured, less caught, less what stands in the tank, is what the circuit took.",),
        "working": ("Each number with its formula, the numbers put in, and where they were written.",),
        "after": ("Within a week phase 14 is due; the owner keeps the door under watch until then.",),
    }


def working() -> tuple[WorkedNumber, ...]:
    return (
        WorkedNumber(
            "cylinder.cap_area",
            "bore area of one cylinder",
            "A_c = π·D²/4",
            (WorkedInput("D", "bore", "100 mm", "unit_specs/doors/sample.yaml:23"),),
            "7850 mm²",
            "definition",
        ),
        WorkedNumber(
            "bleed.stop_pressure",
            "never beyond; already down to a gauge division",
            "least of the candidates, φ·p − ρ·g·h ≤ p₁",
            (
                WorkedInput(
                    "bleeding_limit", "the unit’s own limit", "400 psi", "unit_specs/power-units/sample.yaml:97"
                ),
                WorkedInput("relief", "relief target", "78 bar", "relief.target"),
            ),
            "26 bar (377 psi)",
            "common practice",
            "down to a division",
        ),
    )


def sheet(verdict: str = "caution", paper: str = "A4") -> Sheet:
    """Return the sample: ``verdict`` is ``ok``, ``caution`` or ``stop``."""
    stop = VerdictLine(
        "reservoir.stays_above_low",
        "stop",
        "The level never falls below the low mark.",
        "With the leaf open it would stand at 61 mm, 24 mm below MIN.",
        "Order the unit with the larger tank, or have the maker compute a smaller door.",
        "61 mm",
        "85 mm",
        "arithmetic",
    )
    warn = VerdictLine(
        "lines.as_built",
        "caution",
        "Every line was measured as built.",
        "Two lines are only planned.",
        "Measure them at step 2.3 and have the sheet made again.",
        "planned",
        "",
        "rule of this sheet",
    )
    fine = VerdictLine(
        "relief.carries_leaf",
        "ok",
        "The relief valve carries the leaf.",
        "1.4 times what is needed.",
        "",
        "1.4",
        "1.1",
        "common practice",
    )
    lines = {"stop": (stop, warn, fine), "caution": (warn, fine), "ok": (fine,)}[verdict]
    return Sheet(
        identity=replace(identity(), paper=paper),
        verdict=verdict,  # type: ignore[arg-type]  # one of the three by the line above
        unusable=(f"{stop.reason} {stop.way_out}",) if verdict == "stop" else (),
        head_numbers=(
            HeadNumber(
                "position",
                "Leaf while filling",
                "closed, on its stop, **HOLD** fitted",
                note="First pumped: S2 (close)",
            ),
            HeadNumber(
                "level",
                "Level above the tank floor",
                "low 85 mm · closed 215 ± 2 mm · open 161 ± 2 mm",
                note="Marks: MIN and MAX. 0.11 L per mm.",
                finding="reservoir.level_target_closed",
            ),
            HeadNumber("oil", "Oil", "ISO VG 22, class HV: 38 L", "10.1 gal", "Bring 2 × pail 20 L.", "oil.to_order"),
            HeadNumber(
                "stop",
                "Stop pressure while bleeding",
                "26 bar",
                "377 psi",
                "Set by: the unit’s own limit for bleeding",
                "bleed.stop_pressure",
            ),
            HeadNumber(
                "seconds", "Full to low mark: look before", "85 s", finding="bleed.seconds_full_to_low", assumed=True
            ),
            HeadNumber(
                "relief",
                "Relief valve **RV**, at the end",
                "78 bar",
                "1131 psi",
                "At full flow 88 bar.",
                "relief.target",
            ),
            HeadNumber("wind", "No travel in wind above", "8 m/s", "17 mph", finding="leaf.wind_working"),
            HeadNumber(
                "cold", "Do not start with oil colder than", "−5 °C", "23 °F", "Do not start alone.", "oil.coldest_use"
            ),
        ),
        verdicts=lines,
        cautions=(caution("DANGER", "crushing"), caution("WARNING", "start-up"), caution("CAUTION", "hot")),
        injection=caution("WARNING", "injection"),
        words=words(),
        tables=tables(),
        lockout=lockout_block("LO ", "lockout"),
        release=release_block("RE ", "release"),
        phases=(take_charge(), bleed()),
        record=(
            Box("Serial number of the unit", "", id="record.1"),
            Box("Relief valve RV", "bar", "62 to 78 bar", "relief.target", "record.2", 62.0, 78.0),
            Box("Level, leaf closed", "mm", "213 to 217 mm", "", "record.3", 213.0, 217.0),
            Box("Installer, name and signature", "", id="record.4"),
            Box("Owner, name and signature", "", id="record.5"),
        ),
        working=working(),
        sources=(("IEC 60534-2-1", "valve sizing, viscous flow"), ("common practice", "no published source")),
        figures=figures(),
        labels=read_labels(),
        data={
            "findings": {
                "bleed.stop_pressure": {
                    "kind": "gauge pressure",
                    "unit": "Pa",
                    "value": 2.6e6,
                    "uncertainty": None,
                    "relation": "least",
                    "inputs": ["relief.target", "unit_specs/power-units/sample.yaml:97:3"],
                    "assumed": [],
                    "shown": {"us": "377 psi", "metric": "26 bar"},
                    "rounded": "down",
                }
            },
            "checks": [
                {
                    "id": line.check,
                    "verdict": line.verdict,
                    "finding": "",
                    "value": line.value,
                    "limit": line.limit,
                    "rule": "",
                    "source": line.source,
                }
                for line in lines
            ],
            "facts": [
                {
                    "file": "unit_specs/power-units/sample.yaml",
                    "line": 97,
                    "column": 3,
                    "keys": "bleeding.pressure_limit",
                    "text": "400 psi",
                }
            ],
        },
    )
