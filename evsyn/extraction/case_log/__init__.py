"""A case log, one row a case, turned into the counts of a unit."""
