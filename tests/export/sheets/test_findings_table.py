"""The table of findings: clashes first, every value with its limit and source, what is clear in a list."""

from export.drawings.balloons import numbered
from export.recorder import Recorder
from export.sheets.findings_table import findings_sections
from export.sheets.flow import flow
from geometry.finding import Finding
from geometry.plan import Plan
from tests.export.jobs import usual
from tests.export.measured import touching, words


def judged(plan: Plan) -> tuple[Finding, ...]:
    """One of each status: 12.6 and 60 and 70 mm against 50 with 15 of tightness, and one not computed."""
    judge = plan.rules.judge
    return (
        judge("front.head_rail", 70.0, "Head is 70 mm from the rail.", ("head", "rail")),
        judge("front.head_rail", 60.0, "Head is 60 mm from the rail.", ("head", "rail")),
        judge("front.head_rail", 12.6, "Head is 12.6 mm from the rail; 50 mm is wanted.", ("head", "rail")),
        Finding(rule="hose.all", status="unchecked", parts=(), message="The hose <b> could not be computed."),
        judge("front.head_ceiling", 300.0, "clear", ("head",)),
        judge("front.head_ceiling", 300.0, "clear", ("head",)),
    )


def table(findings: tuple[Finding, ...], width: float = 170.0) -> Recorder:
    pen = Recorder()
    for one in flow(findings_sections(usual(), findings, width), [(0, 0, width, 5000)]):
        one.block.draw(pen, one.x, one.y)
    return pen


def lines(pen: Recorder) -> list[str]:
    return [text.text for text in words(pen)]


def test_clashes_stand_first_with_their_numbers() -> None:
    plan = usual()
    assert [one.status for one in numbered(judged(plan))] == ["clash", "unchecked", "tight"]
    written = lines(table(judged(plan)))
    assert [text for text in written if text in ("Clash", "Unchecked", "Tight")] == [
        "Clash",
        "Unchecked",
        "Tight",
    ]
    assert [text for text in written if text.isdigit()] == ["1", "2", "3"]


def test_each_value_stands_with_its_limit_and_source() -> None:
    written = lines(table(judged(usual())))
    assert written[written.index("12.6 mm") + 1] == "≥ 50 mm"
    assert "common practice, no source" in written


def test_what_could_not_be_computed_has_no_value() -> None:
    written = lines(table(judged(usual())))
    assert "The hose <b> could not be computed." in written
    assert written.count("–") == 2


def test_what_is_clear_is_listed_by_title_with_how_often() -> None:
    written = " ".join(lines(table(judged(usual()))))
    assert "Head to rail; Head to ceiling (2)." in written


def test_nothing_to_report_is_said() -> None:
    plan = usual()
    clear = judged(plan)[:1]
    assert "Every check that was made is clear." in lines(table(clear))
    assert "No check was made." in lines(table(()))


def test_long_rows_wrap_and_never_touch() -> None:
    plan = usual()
    long = tuple(
        plan.rules.judge(
            "front.head_rail", -1234.5, f"Number {i}: " + "very long words about it " * (i % 9), ()
        )
        for i in range(40)
    )
    for width in (130.0, 170.0, 257.0):
        found = words(table(long, width))
        assert touching(found) == []
        assert max(text.bounds[2] for text in found) <= width + 1e-6
        assert min(text.height for text in found) >= 1.8
