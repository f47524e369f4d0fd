"""Study effects: one estimate and variance a study on one scale, and study intervals."""
