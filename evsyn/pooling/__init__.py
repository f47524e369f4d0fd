"""Pooled answers from study effects and a grid of questions; nothing here is clinical."""
