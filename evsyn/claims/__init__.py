"""Sentences someone wants to say, weighed against a review; one weigher a file."""
