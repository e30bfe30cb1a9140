import pytest

from workbook_tools.report.styles import INK, LEAST_CONTRAST, PAPER, SPARK_INK, STYLES, TONES, contrast


@pytest.mark.parametrize("style", STYLES)
def test_every_style_can_be_read(style):
    look = STYLES[style]
    assert contrast(str(look.get("font_color", INK)), str(look.get("bg_color", PAPER))) >= LEAST_CONTRAST


@pytest.mark.parametrize("tone", TONES)
def test_every_tone_can_be_read_and_has_a_word(tone):
    assert contrast(TONES[tone].font, TONES[tone].behind) >= LEAST_CONTRAST
    assert TONES[tone].says


def test_small_charts_stand_out_from_the_paper():
    assert contrast(SPARK_INK, PAPER) >= 3


def _seen_without(kind, colour):
    """Linear light as seen without one kind of cone, by Viénot, Brettel and Mollon (1999), from memory."""
    light = [(int(colour[i : i + 2], 16) / 255) ** 2.2 for i in (1, 3, 5)]
    rows = {
        "protan": ((0.11238, 0.88762, 0), (0.11238, 0.88762, 0), (0.00401, -0.00401, 1)),
        "deutan": ((0.29275, 0.70725, 0), (0.29275, 0.70725, 0), (-0.02234, 0.02234, 1)),
    }[kind]
    return [sum(weight * part for weight, part in zip(row, light, strict=True)) for row in rows]


@pytest.mark.parametrize("kind", ["protan", "deutan"])
def test_late_and_today_differ_for_eyes_that_miss_red_or_green(kind):
    late, today = (_seen_without(kind, TONES[tone].behind) for tone in ("late", "today"))
    assert abs((late[2] - late[0]) - (today[2] - today[0])) > 0.2
