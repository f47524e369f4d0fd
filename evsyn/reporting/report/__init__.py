"""What people take away: one content, and a product each for page, slides and pocket."""
