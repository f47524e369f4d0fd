"""The exact model for two arms: hypergeometric counts, normal log odds ratios between studies."""
