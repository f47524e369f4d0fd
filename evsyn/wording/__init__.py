"""Every sentence and every number format printed anywhere."""
