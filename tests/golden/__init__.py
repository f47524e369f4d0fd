"""Pooled values of both reviews, kept so that no change moves one unseen.

``python -m tests.golden`` writes them anew; a change of any value belongs in CHANGELOG.md under
Numbers. These are the tool's own results and no check of its correctness.
"""
