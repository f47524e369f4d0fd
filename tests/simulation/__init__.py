"""How often ordinary units are flagged by the audit's verdict, by simulation.

``python -m tests.simulation`` simulates reviews whose truth is known, pools each as the tool
does, and sums the true chances of the counts that its verdict would flag. With ``--write`` it
keeps the results and puts the tables into ``docs/explanation/how-often-a-unit-is-flagged.md``.
"""
