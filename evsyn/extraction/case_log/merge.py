"""Give a unit the counts of its log."""

from collections.abc import Iterator, Sequence
from pathlib import Path

from evsyn.extraction.case_log.case import Case
from evsyn.extraction.case_log.flow_counts import FlowCounts, flow_counts
from evsyn.extraction.case_log.groups import groups_of
from evsyn.extraction.case_log.headings import columns_of
from evsyn.extraction.case_log.marks import mark_faults
from evsyn.extraction.case_log.missing import missing_notes
from evsyn.extraction.case_log.read import read_log
from evsyn.extraction.case_log.references import same_references
from evsyn.extraction.case_log.refused import RefusedError, fault, note
from evsyn.extraction.case_log.settings import OutcomeWay, outcome_ways, setting_faults
from evsyn.extraction.case_log.things import things
from evsyn.extraction.case_log.understand import CaseTable, understand
from evsyn.extraction.identifiers.screen import screen
from evsyn.extraction.plan import Plan
from evsyn.extraction.unit import CaseLog, Unit
from evsyn.extraction.yaml_text import Block
from evsyn.terms import Finding, Severity, Source

#: What a log gives, and a unit file with one may not say again.
GIVEN = ("flow", "complications", "patients_end", "devices", "devices_end")
Told = tuple[Unit | None, tuple[Case, ...], list[Finding]]


def with_log(unit: Unit, plan: Plan, folder: Path) -> Told:
    """Return a unit with the counts of its log, if it has one.

    Parameters
    ----------
    unit : Unit
        The unit as its file has it.
    plan : Plan
        The plan of the review.
    folder : pathlib.Path
        Folder of the unit file, in which the log lies.

    Returns
    -------
    tuple
        The unit, ``None`` where anything is at fault; the cases; faults and notes. Where the log
        may tell who a patient is, that is all that is said of it.
    """
    log = unit.case_log
    findings = list(_two_ways(unit))
    if log is None or findings:
        return (None if findings else unit), (), findings
    known = things(plan)
    findings += setting_faults(log, plan, known)
    try:
        raw = read_log(folder, log.file, log.sheet)
    except RefusedError as refusal:
        return None, (), [*findings, refusal.of(log.file)]
    identifying = screen(raw, plan.audit.roles, log.words)
    if identifying:
        return None, (), list(identifying)
    findings += [refusal.of(log.file) for refusal in raw.refusals]
    findings += mark_faults(raw, unit)
    labels = {name: outcome.label for name, outcome in plan.outcomes.items()}
    columns, found = columns_of(raw.table, known, log, labels)
    findings += found
    if not raw.table.rows:
        source = Source(log.file, raw.table.heading_row)
        findings.append(fault(source, "the log holds no case", "Write one row a case."))
    if _is_faulty(findings):
        return None, (), findings
    ways, found = outcome_ways(log, columns, plan)
    findings += found
    table, found = understand(raw.table, columns, known, log.words, ways, plan, unit.period)
    findings += found
    if table is None or _is_faulty(findings):
        return None, (), findings
    return _merged(unit, log, table, ways, plan, findings)


def _merged(
    unit: Unit,
    log: CaseLog,
    table: CaseTable,
    ways: Sequence[OutcomeWay],
    plan: Plan,
    findings: list[Finding],
) -> Told:
    groups = groups_of(table, log, plan)
    if not groups:
        message = "no case reached a stage over which an outcome is counted"
        cure = "Correct the log, or the outcomes' 'of' in the unit file."
        return None, (), [*findings, fault(Source(log.file, table.heading_row), message, cure)]
    counts = flow_counts(table, log, plan)
    made = unit.model_copy(update={**counts.fields, "groups": groups})
    made._block = _with_lines(unit, [*counts.fields, "groups"])
    findings += missing_notes(table.file, counts.missing, table.cases, ways, table.columns)
    findings += same_references(table.file, table.cases)
    return made, table.cases, [*findings, *_unlogged(counts, table)]


def _with_lines(unit: Unit, fields: list[str]) -> Block:
    """Return the unit's block, with the line of the log's entry for the fields it gives."""
    line = unit.source("case_log").line
    block = Block(unit._block.line, unit._block.path)
    block.update(unit._block)
    block.key_lines = unit._block.key_lines | dict.fromkeys(fields, line)
    return block


def _two_ways(unit: Unit) -> Iterator[Finding]:
    if unit.case_log is None:
        if not unit.groups:
            message = "the unit file gives neither groups nor a case log"
            yield fault(unit.source(), message, "Add 'groups', or 'case_log'.")
        return
    for field in ("groups", *GIVEN):
        if field in unit.model_fields_set:
            message = f"'{field}' stands beside a case log, which gives it"
            yield fault(unit.source(field), message, f"Take out '{field}', or the case log.")


def _unlogged(counts: FlowCounts, table: CaseTable) -> Iterator[Finding]:
    source = Source(table.file, table.heading_row)
    if counts.unlogged:
        message = (
            f"not counted, because no case of the log ended so early: {', '.join(counts.unlogged)}"
        )
        cure = "If cases ended there, give them rows of their own."
        yield note(source, message, cure)


def _is_faulty(findings: list[Finding]) -> bool:
    return any(finding.severity is Severity.FAULT for finding in findings)
