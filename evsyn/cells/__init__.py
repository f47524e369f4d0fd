"""From extracts to the evidence table: which counts of which studies feed which pool."""
