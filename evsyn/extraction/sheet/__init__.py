"""The workbook road: a review's extracts as sheets of cells, and back into its files."""
