"""Layout as data first, ink second."""
