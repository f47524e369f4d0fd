"""Whether all lines of a unit's flow of cases can hold of any patients at all."""
