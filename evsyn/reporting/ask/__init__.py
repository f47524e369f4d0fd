"""Answers to questions asked of a pool, as text and as fields."""
