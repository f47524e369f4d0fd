"""A folder of wheels from which evsyn is installed without a network, and what is in it."""
