"""Later stages of a case cannot hold more patients than earlier ones."""

SUCCESS = "        events: 48\n        total: 52\n        of: attempted\n"
WINDOWED = "        of: attempted\n        window: 30_days\n"


def test_a_stage_that_shrinks(tiny):
    tiny.reed("total: 52\n" + WINDOWED, "total: 48\n" + WINDOWED.replace("attempted", "placed"))
    assert tiny.found("flow-in-order") == []


def test_a_stage_that_grows(tiny):
    tiny.reed("total: 52\n" + WINDOWED, "total: 52\n" + WINDOWED.replace("attempted", "placed"))
    tiny.reed(SUCCESS, SUCCESS.replace("52", "50"))
    (finding,) = tiny.found("flow-in-order")
    assert finding.message == "52 placed after 50 attempted"
    assert finding.source.key_path == "all.perforation"


def test_one_basis_with_two_totals(tiny):
    tiny.reed(SUCCESS, SUCCESS.replace("52", "50"))
    (finding,) = tiny.found("flow-in-order")
    assert finding.message == "the attempted are 50 here and 52 for perforation"


def test_totals_as_printed_are_not_compared(tiny):
    tiny.reed(SUCCESS, SUCCESS.replace("52", "50").replace("attempted", "as_printed"))
    assert tiny.found("flow-in-order") == []


def test_procedures_are_not_compared_with_patients(tiny):
    tiny.reed(SUCCESS, SUCCESS.replace("52", "54") + "        counted_by: procedure\n")
    assert tiny.found("flow-in-order") == []


def test_a_basis_outside_the_flow_is_not_ordered(tiny):
    tiny.plan("flow: [attempted, placed]", "flow: [attempted]")
    tiny.reed(SUCCESS, SUCCESS.replace("attempted", "placed").replace("52", "60"))
    assert tiny.found("flow-in-order") == []
