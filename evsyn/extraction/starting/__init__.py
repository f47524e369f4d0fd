"""The first version of a file: answers to a few questions, put into the shape of its record."""
