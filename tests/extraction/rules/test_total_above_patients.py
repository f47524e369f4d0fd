"""A denominator larger than the arm is counted in something else."""

COUNT = "events: 2, total: 30,"


def test_more_than_the_patients(tiny):
    (finding,) = tiny.sedge(COUNT, "events: 2, total: 31,").found("total-above-patients")
    assert finding.message == "a total of 31 in an arm of 30 patients"


def test_as_many_as_the_patients_or_fewer(tiny):
    assert tiny.sedge(COUNT, "events: 2, total: 28,").found("total-above-patients") == []


def test_procedures_within_the_procedures_of_the_arm(tiny):
    tiny.sedge(COUNT, "events: 2, total: 33, counted_by: procedure,")
    tiny.sedge("patients: 30\n", "patients: 30\n    procedures: 33\n")
    assert tiny.found("total-above-patients") == []


def test_more_than_the_procedures_of_the_arm(tiny):
    tiny.sedge(COUNT, "events: 2, total: 34, counted_by: procedure,")
    tiny.sedge("patients: 30\n", "patients: 30\n    procedures: 33\n")
    (finding,) = tiny.found("total-above-patients")
    assert finding.message == "a total of 34 in an arm of 33 procedures"


def test_procedures_that_are_not_told(tiny):
    tiny.sedge(COUNT, "events: 2, total: 33, counted_by: device,")
    (finding,) = tiny.found("total-above-patients")
    assert finding.message == "counted by device, and the arm's procedures are not given"
