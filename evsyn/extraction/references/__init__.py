"""References as databases hand them out, turned into citations, and papers that stand twice."""
