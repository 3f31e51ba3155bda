"""What standards and practice ask of a commissioning sheet: sixty requirements, where each comes from, how it is held.

Each is held by tests that look at what people get, or says why it is not, or not wholly.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

__all__ = ["REQUIREMENTS", "TOPICS", "Known", "Requirement", "State"]

State: TypeAlias = Literal["held", "in part", "not held"]
Known: TypeAlias = Literal["read", "secondary", "memory", "judgement"]

TOPICS = (
    "Identity and form",
    "Steps",
    "Energy control",
    "Hydraulics",
    "Electrical",
    "Door and hand-over",
    "Safety messages",
)


@dataclass(frozen=True, slots=True)
class Requirement:
    """One requirement.

    Parameters
    ----------
    number, topic
        1 to 60; one of :data:`TOPICS`.
    asks
        What is asked, in our words.
    source
        Where it comes from.
    known
        How its source is known: the text was ``read``, a ``secondary`` source tells of it, it is from ``memory``, or
        it is our ``judgement``.
    by
        The tests that hold it, as file and name below ``tests/``; ``make audit`` for a checker made by others.
    state, why
        Whether it is held; where not, or not wholly, why.
    """

    number: int
    topic: str
    asks: str
    source: str
    known: Known
    by: tuple[str, ...]
    state: State = "held"
    why: str = ""


_PDF = "publish/test_pdf.py::test_"
_SCREEN = "publish/test_screen.py::test_"
_ONE_FILE = "publish/test_single_file.py::test_"
_WORDING = "sheet/test_wording.py::test_"
_SHEET = "sheet/test_composing.py::test_"
_WALK = "sheet/test_walk.py::test_"
_AUDIT = "make audit"


def _own(number: int, name: str) -> str:
    files = {1: "form", 14: "steps", 24: "energy_control", 36: "hydraulics", 50: "electrical", 54: "hand_over"}
    file = files[max(first for first in files if first <= number)]
    return f"requirements/test_{file}.py::test_requirement_{number:02d}_{name}"


_FORM, _STEPS, _ENERGY, _OIL, _ELECTRICAL, _DOOR, _MESSAGES = TOPICS

REQUIREMENTS: tuple[Requirement, ...] = (
    Requirement(
        1,
        _FORM,
        "Every page says which job, unit and serial number it is for, which version of the sheet and of the facts it "
        "shows, and the date.",
        "IEC/IEEE 82079-1:2019",
        "memory",
        (_own(1, "every_page_says_which_sheet_it_is"), f"{_PDF}every_page_has_its_head"),
    ),
    Requirement(
        2,
        _FORM,
        "Every page says that it is page n of N.",
        "UK CAA CAP 676",
        "memory",
        (_own(2, "every_page_has_its_number_of_how_many"), f"{_PDF}every_page_has_its_head"),
    ),
    Requirement(
        3,
        _FORM,
        "The document has a title and a language.",
        "WCAG 2.2, 2.4.2 and 3.1.1; ISO 14289-1 (PDF/UA-1)",
        "memory",
        (
            _own(3, "each_form_has_a_title_and_a_language"),
            f"{_PDF}tagged_titled_and_to_be_printed_at_full_size",
        ),
    ),
    Requirement(
        4,
        _FORM,
        "Nothing is loaded from a network.",
        "Regulation (EU) 2023/1230, Art. 10(7): usable during a breakdown",
        "secondary",
        (
            _own(4, "no_form_names_anything_to_load"),
            f"{_ONE_FILE}alone_sound_and_whole",
            f"{_SCREEN}fits_its_width_and_asks_nobody",
        ),
    ),
    Requirement(
        5,
        _FORM,
        "Paper hides no step, warning or value that the screen shows.",
        "Regulation (EU) 2023/1230, Art. 10(7)",
        "secondary",
        (
            _own(5, "paper_and_screen_say_the_same_steps_messages_and_values"),
            f"{_PDF}nothing_of_the_document_is_left_out",
            f"{_SCREEN}printed_it_hides_no_step_message_or_value",
        ),
    ),
    Requirement(
        6,
        _FORM,
        "Running text is at least 10 pt; warnings, limits and light text on dark at least 12 pt.",
        "ISO/IEC Guide 37:2012",
        "secondary",
        (f"{_PDF}text_is_large_enough_and_inside_the_paper", f"{_PDF}limits_are_large_and_bold"),
        "in part",
        "The grouped messages of page 1 stand at 11 pt: everything to know before touching anything is on that one "
        "page. At their steps the messages stand at 12 pt, limits at 14 pt.",
    ),
    Requirement(
        7,
        _FORM,
        "Text stands out by 4.5 to 1, borders of controls by 3 to 1.",
        "WCAG 2.2, 1.4.3 and 1.4.11",
        "memory",
        (f"{_SCREEN}text_stands_out", f"{_ONE_FILE}contrast_is_computed_as_defined", _AUDIT),
    ),
    Requirement(
        8,
        _FORM,
        "What is touched is at least 24 px large, the tick of a step with its words at least 44 px.",
        "WCAG 2.2, 2.5.8 and 2.5.5",
        "read",
        (f"{_SCREEN}targets_are_large_enough_for_gloves",),
    ),
    Requirement(
        9,
        _FORM,
        "At 320 px of width nothing has to be scrolled sideways.",
        "WCAG 2.2, 1.4.10",
        "memory",
        (f"{_SCREEN}fits_its_width_and_asks_nobody",),
    ),
    Requirement(
        10,
        _FORM,
        "Every field to fill in has a name that says which step it belongs to.",
        "WCAG 2.2, 1.3.1 and 4.1.2",
        "memory",
        (
            _own(10, "every_field_is_named_with_its_step"),
            f"{_ONE_FILE}each_step_is_a_box_to_tick_with_its_words_as_name",
        ),
    ),
    Requirement(
        11,
        _FORM,
        "Nothing is said by colour alone.",
        "WCAG 2.2, 1.4.1",
        "memory",
        (_own(11, "what_has_a_colour_has_a_word"), f"{_WORDING}no_colour_or_code_is_typed_into_the_words"),
    ),
    Requirement(
        12,
        _FORM,
        "The PDF passes the PDF/UA-1 profile of veraPDF.",
        "ISO 14289-1, by the veraPDF rules",
        "read",
        (_AUDIT, f"{_PDF}tagged_titled_and_to_be_printed_at_full_size", f"{_PDF}headings_skip_no_level"),
    ),
    Requirement(
        13,
        _FORM,
        "No placeholder and no unrounded number is printed.",
        "IEC/IEEE 82079-1:2019: correctness",
        "memory",
        (f"{_SHEET}nothing_is_left_unfilled", f"{_SHEET}a_usable_sheet_lacks_no_fact_in_its_steps"),
    ),
    Requirement(
        14,
        _STEPS,
        "Each step has one sentence in the imperative and one action.",
        "IEC/IEEE 82079-1:2019",
        "memory",
        (f"{_WORDING}each_action_begins_with_one_imperative_verb", f"{_WORDING}each_action_is_one_short_sentence"),
    ),
    Requirement(
        15,
        _STEPS,
        "Each step says what must be seen when it is done.",
        "IEC/IEEE 82079-1:2019",
        "memory",
        (f"{_SHEET}every_step_says_who_where_and_what_must_be_seen",),
    ),
    Requirement(
        16,
        _STEPS,
        "A step with a measurement prints target, tolerance, unit and a box for the value.",
        "NASA CR-177549 (Degani and Wiener)",
        "secondary",
        (
            _own(16, "a_measurement_has_target_unit_and_box"),
            f"{_SHEET}levels_carry_the_reading_of_the_glass",
            f"{_SHEET}boxes_have_numbers_where_a_bound_is_printed",
        ),
        "in part",
        "The overrun of a leaf that is let go and the gaps at its ends are written without a target: no fact states "
        "one. Counts and times of day have none by their nature.",
    ),
    Requirement(
        17,
        _STEPS,
        "No expected result is a mere “checked”, “OK” or “set”.",
        "NASA CR-177549",
        "secondary",
        (_own(17, "what_must_be_seen_can_be_seen"), f"{_WORDING}no_sheet_says_what_hurts_people"),
    ),
    Requirement(
        18,
        _STEPS,
        "No block has more than 9 steps, no hold point more than 7.",
        "WHO surgical safety checklist practice",
        "secondary",
        (f"{_SHEET}blocks_are_short_and_close",),
    ),
    Requirement(
        19,
        _STEPS,
        "Every block ends with a completion line and initials.",
        "NASA CR-177549",
        "memory",
        (_own(19, "every_block_closes_with_initials"), f"{_SHEET}blocks_are_short_and_close"),
    ),
    Requirement(
        20,
        _STEPS,
        "Every “if not” names the condition, the action and the step to return to.",
        "UK CAA CAP 676",
        "memory",
        (
            _own(20, "every_way_out_names_condition_action_and_place"),
            f"{_SHEET}every_way_back_leads_to_a_step_of_the_sheet",
        ),
    ),
    Requirement(
        21,
        _STEPS,
        "Step numbers are unique and follow the order of the document.",
        "The Advanced Procedures Writer’s Guide",
        "secondary",
        (f"{_SHEET}step_numbers_are_unique_and_sequential",),
    ),
    Requirement(
        22,
        _STEPS,
        "Whatever is referred to is there.",
        "IEC/IEEE 82079-1:2019: consistency",
        "memory",
        (_own(22, "steps_and_phases_named_in_texts_exist"), f"{_ONE_FILE}a_way_back_is_a_link_to_its_step"),
    ),
    Requirement(
        23,
        _STEPS,
        "Each step names who does it; electrical steps name a licensed electrician.",
        "29 CFR 1910.399, qualified person",
        "read",
        (_own(23, "each_step_names_a_role_of_the_sheet"), f"{_WORDING}electrical_steps_are_the_electricians"),
    ),
    Requirement(
        24,
        _ENERGY,
        "A table of energies lists each source with how much, isolator, place, control and proof.",
        "29 CFR 1910.147(d)(1), Appendix A(2)",
        "read",
        (_own(24, "each_energy_has_amount_isolator_place_control_and_proof"),),
    ),
    Requirement(
        25,
        _ENERGY,
        "Electrical, hydraulic and gravity always stand in it; wind and accumulators where there are any.",
        "ISO 14118:2017; 29 CFR 1910.147 Appendix A(6)",
        "read",
        (_own(25, "the_energies_there_always_are"), f"{_SHEET}energies_always_named"),
        "in part",
        "The facts have no accumulator: a unit with one cannot be described, and no sheet can be made for it. Whoever "
        "leaves it out of the facts is not found out.",
    ),
    Requirement(
        26,
        _ENERGY,
        "No push button and no selector is listed as an isolator.",
        "29 CFR 1910.147(b)",
        "read",
        (_own(26, "no_control_is_an_isolator"), f"{_SHEET}energies_always_named"),
    ),
    Requirement(
        27,
        _ENERGY,
        "The order of a lockout is: tell, shut down, isolate, lock, stored energy, verify.",
        "29 CFR 1910.147(c)(9) and (d)",
        "read",
        (
            _own(27, "what_is_shut_in_at_the_cylinders_is_let_down_last"),
            f"{_SHEET}each_lockout_has_every_step_in_order",
            f"{_SHEET}nobody_is_sent_to_a_cylinder_before_the_lines_read_zero_and_the_leaf_is_seen",
            f"{_WALK}every_line_of_a_written_out_block_must_be_there",
        ),
    ),
    Requirement(
        28,
        _ENERGY,
        "To verify, the start control is tried and put back to off.",
        "29 CFR 1910.147 Appendix A(7)",
        "read",
        (f"{_SHEET}each_lockout_has_every_step_in_order",),
    ),
    Requirement(
        29,
        _ENERGY,
        "The meter is proved before and after the test for dead.",
        "NFPA 70E 120.5",
        "secondary",
        (_own(29, "the_meter_is_proved_before_and_after"),),
    ),
    Requirement(
        30,
        _ENERGY,
        "Before power comes back: tools clear, people clear, own locks off.",
        "29 CFR 1910.147(f)(1)",
        "read",
        (_own(30, "power_comes_back_after_tools_people_and_locks"), f"{_SHEET}each_release_has_every_step_in_order"),
    ),
    Requirement(
        31,
        _ENERGY,
        "After a test, hands go in again only after power is off, locked and proved off.",
        "29 CFR 1910.147(f)(1)(v)",
        "read",
        (_own(31, "hands_go_in_only_after_a_lockout"), f"{_WALK}hands_never_go_in_with_power_on"),
    ),
    Requirement(
        32,
        _ENERGY,
        "The people concerned are told before locks go on, and after they are off and before the start.",
        "29 CFR 1910.147(c)(9) and (e)(2)(ii)",
        "read",
        (_own(32, "people_are_told_twice"),),
    ),
    Requirement(
        33,
        _ENERGY,
        "There are lines for owners of locks, change of shift, and the exchange between host and contractor.",
        "29 CFR 1910.147(f)(2) to (f)(4)",
        "read",
        (_own(33, "there_are_lines_for_locks_shifts_and_exchange"),),
    ),
    Requirement(
        34,
        _ENERGY,
        "The sheet says that it does not replace the employer’s procedure, and claims compliance with nothing.",
        "29 CFR 1910.147(a)(1)(ii)(A) and (c)(4)",
        "read",
        (_own(34, "it_claims_compliance_with_nothing"), f"{_WORDING}the_sheet_says_what_comes_before_it"),
    ),
    Requirement(
        35,
        _ENERGY,
        "Where a leaf can fall or move, its restraint is named, fitted before the work and removed after it; "
        "removing a prop may need power.",
        "29 CFR 1910.147 Appendix A(6) and its note; ISO 4413",
        "read",
        (_own(35, "the_restraint_is_fitted_before_and_taken_out_after"),),
        "in part",
        "The restraint holds a leaf that rests on its stop, so it comes out without power; where it is under load the "
        "step leads back. A prop is used only where the leaf sticks part open, and there the sheet ends and the maker "
        "is called: it has no steps to take a loaded prop out.",
    ),
    Requirement(
        36,
        _OIL,
        "Nothing is opened before the gauges read zero and the load is held.",
        "US Army TM 10-3930-660; ISO 4413",
        "read",
        (_own(36, "nothing_is_opened_before_zero_and_held"), f"{_WALK}nothing_is_opened_under_pressure"),
    ),
    Requirement(
        37,
        _OIL,
        "No step tells anybody to slacken a joint to let air out.",
        "US Army TM 5-3810-300",
        "read",
        (f"{_WORDING}no_sheet_says_what_hurts_people",),
    ),
    Requirement(
        38,
        _OIL,
        "Kind of oil, viscosity grade, volume and cleanliness code are printed.",
        "ISO 4413; ISO 4406",
        "memory",
        (_own(38, "oil_grade_volume_and_cleanliness_are_printed"),),
    ),
    Requirement(
        39,
        _OIL,
        "Oil is filled through a filter of 10 µm or finer.",
        "UFGS-15010A",
        "read",
        (_own(39, "oil_goes_through_a_fine_filter"), "commissioning/test_checks.py::test_verdict_and_reason"),
    ),
    Requirement(
        40,
        _OIL,
        "The fill is tank, cylinders and lines together; what the tank can give is at least one travel.",
        "Geometry of tank and cylinders, any textbook",
        "judgement",
        (_own(40, "the_fill_is_the_sum_of_its_parts"), "hydraulics/test_contents.py"),
    ),
    Requirement(
        41,
        _OIL,
        "A level names the position of the leaf, and the levels of both end positions are printed.",
        "Practice of reading levels: level ground, cold oil, rods in",
        "judgement",
        (_own(41, "levels_name_the_leaf_and_both_ends"),),
    ),
    Requirement(
        42,
        _OIL,
        "The relief valve starts backed off, the pump runs unloaded for 2 minutes or more, pressure rises in steps.",
        "US Army TM 5-3810-307",
        "read",
        (_own(42, "pressure_starts_low_and_rises_in_steps"), "commissioning/test_checks.py::test_verdict_and_reason"),
    ),
    Requirement(
        43,
        _OIL,
        "The relief target is no higher than the lowest rating in the circuit.",
        "ISO 4413",
        "memory",
        (_own(43, "the_relief_target_spares_every_part"),),
    ),
    Requirement(
        44,
        _OIL,
        "Travel is slow, at low pressure and both ways before full pressure.",
        "US Army TM 5-3810-306",
        "read",
        (_own(44, "travel_is_slow_and_both_ways_before_full_pressure"),),
    ),
    Requirement(
        45,
        _OIL,
        "Settling times and numbers of travels come from the facts, never from a template.",
        "No public source gives a number",
        "judgement",
        (_own(45, "times_and_counts_come_from_the_unit"), f"{_WORDING}no_number_is_typed_into_the_words"),
    ),
    Requirement(
        46,
        _OIL,
        "Leaks are looked for with cardboard; nobody is told to feel or touch for one.",
        "Colorado State University Extension 5.017",
        "secondary",
        (f"{_WORDING}leaks_are_looked_for_with_cardboard", f"{_WORDING}no_sheet_says_what_hurts_people"),
    ),
    Requirement(
        47,
        _OIL,
        "The box on injection says: to hospital now, say “injection injury”, bring the safety data sheet.",
        "J. Clin. Med. 14(1):72 and other clinical papers",
        "read",
        (f"{_WORDING}the_injection_box_says_go_now",),
    ),
    Requirement(
        48,
        _OIL,
        "Each row of the trouble table has cause, what to look at, and the step to return to.",
        "IEC/IEEE 82079-1:2019",
        "memory",
        (_own(48, "each_trouble_has_cause_look_and_way_back"),),
    ),
    Requirement(
        49,
        _OIL,
        "The hand-over includes bleeding again in the first week.",
        "UFGS-15010A",
        "read",
        (_own(49, "the_first_week_is_part_of_the_sheet"),),
    ),
    Requirement(
        50,
        _ELECTRICAL,
        "The overload is set to no more than 1.25 or 1.15 of the plate’s current, by service factor or rise.",
        "NEC 430.32(A)(1)",
        "secondary",
        (_own(50, "the_overload_is_that_of_the_code"), "outside/test_motor.py"),
    ),
    Requirement(
        51,
        _ELECTRICAL,
        "The window of voltage is the plate’s ±10 %; unbalance is explained and at most 1 %.",
        "NEMA MG 1, 12.44 and 12.45",
        "read",
        (_own(51, "the_window_of_voltage_and_the_unbalance"), "outside/test_motor.py"),
    ),
    Requirement(
        52,
        _ELECTRICAL,
        "Starts planned in an hour and the rest between them keep to the motor’s limits; jogs count as starts.",
        "NEMA MG 10; the maker’s own data come first",
        "secondary",
        (_own(52, "starts_are_counted_and_compared"), f"{_SHEET}starts_are_counted_with_each_jog"),
        "in part",
        "Counted and compared with what the maker states, not with the table of NEMA MG 10, whose figures hold for "
        "four-pole motors of designs A and B. Where a day’s work plans more, the sheet is not stopped: it says so, and "
        "prints the rest before each start. A motor without stated starts stops it.",
    ),
    Requirement(
        53,
        _ELECTRICAL,
        "The direction of turning is proved after oil stands at the inlet and before any loaded run.",
        "US Army TM 5-3810-307; our judgement",
        "judgement",
        (_own(53, "direction_is_proved_on_oil_and_unloaded"),),
    ),
    Requirement(
        54,
        _DOOR,
        "Automatic operation is not enabled before every safety device has passed its test.",
        "HSE safety alert of 26 November 2018; UFGS-08331N",
        "read",
        (_own(54, "automatic_comes_last"), f"{_WALK}a_missing_step_that_others_rest_on_is_caught"),
    ),
    Requirement(
        55,
        _DOOR,
        "The tests suit door and control; automatic closing has a test of force, with 400, 150 and 25 N where EN 12453 "
        "holds.",
        "EN 12453",
        "secondary",
        (_own(55, "tests_suit_the_door_and_its_control"),),
    ),
    Requirement(
        56,
        _DOOR,
        "The relief valve is never called a protection of people.",
        "HSE research report RR1056; our judgement",
        "read",
        (_own(56, "the_relief_valve_protects_parts"), f"{_WORDING}no_sheet_says_what_hurts_people"),
    ),
    Requirement(
        57,
        _DOOR,
        "Letting go, emergency stop, limits, power loss and hand release each have a line to pass.",
        "UFGS-08331N; UFC 4-211-01N",
        "read",
        (_own(57, "each_stop_has_a_line_to_pass"), "commissioning/test_checks.py::test_verdict_and_reason"),
    ),
    Requirement(
        58,
        _DOOR,
        "The hand-over lists instructions, settings, results, safety data sheet, log book, training and remaining "
        "dangers, with two signatures.",
        "EN 12635; ISO 20607:2019",
        "secondary",
        (_own(58, "the_hand_over_is_whole_and_signed_by_two"),),
    ),
    Requirement(
        59,
        _DOOR,
        "A failed safety test leads to: isolate, tag, tell the owner.",
        "HSE, questions on powered gates",
        "read",
        (_own(59, "a_failed_safety_test_takes_the_door_out_of_use"),),
    ),
    Requirement(
        60,
        _MESSAGES,
        "Every message has hazard, consequence and avoidance, stands before its step, and is black on orange or "
        "yellow.",
        "ANSI Z535.6; ISO 3864-4",
        "secondary",
        (
            _own(60, "messages_are_whole_and_stand_before_their_step"),
            f"{_WORDING}each_safety_message_names_hazard_consequence_and_avoidance",
        ),
    ),
)
