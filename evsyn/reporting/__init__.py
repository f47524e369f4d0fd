"""Tables, JSON and files made from answers."""
