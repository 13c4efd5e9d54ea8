from shop.calc.when import fit, holds, undecided, values_to_record

MANUAL = {"attribute": "transmission", "in": ["manual"]}
SMALL = {"attribute": "brakes", "in": ["300", "312"]}


def test_all_conditions_must_hold() -> None:
    assert holds([], {})
    assert holds([MANUAL, SMALL], {"transmission": "manual", "brakes": "312"})
    assert not holds([MANUAL, SMALL], {"transmission": "manual", "brakes": "340"})
    assert not holds([MANUAL], {}) and not holds([MANUAL], {"transmission": "Manual"})


def test_what_nobody_has_stated_is_asked_for_with_every_value() -> None:
    other = {"attribute": "transmission", "in": ["automatic"]}
    assert undecided([MANUAL, other, SMALL], {"brakes": "300"}) == {"transmission": ("automatic", "manual")}
    assert undecided([MANUAL], {"transmission": ""}) == {"transmission": ("manual",)}


def test_a_kit_fits_does_not_fit_or_asks() -> None:
    assert fit([], {}) == "yes" == fit([MANUAL], {"transmission": "manual"})
    assert fit([MANUAL, SMALL], {"transmission": "manual"}) == "ask"
    assert fit([MANUAL, SMALL], {"brakes": "340"}) == "no"


def test_what_can_be_recorded_is_what_is_named_and_the_other_side_of_it() -> None:
    sensor = [{"attribute": "wear sensor", "in": [value]} for value in ("front", "both")]
    hook, none = {"attribute": "tow bar", "in": ["yes"]}, {"attribute": "sunroof", "in": ["no"]}
    assert values_to_record([MANUAL, *sensor, hook, none]) == {
        "sunroof": ("no", "yes"),
        "tow bar": ("no", "yes"),
        "transmission": ("automatic", "manual"),
        "wear sensor": ("both", "front"),
    }
    assert values_to_record([]) == {}
