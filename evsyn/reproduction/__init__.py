"""A published pooling typed from paper, and which method gives what is printed of it."""
