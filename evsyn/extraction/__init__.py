"""Read a review folder of YAML into records, each value with its place, and check them."""
