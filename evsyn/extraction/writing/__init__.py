"""Write extracts as YAML: whole new files, and changes in place that keep all else as it was.

Nothing here touches a disk; ``evsyn.reporting.files.write_all`` puts the texts in place.
"""
