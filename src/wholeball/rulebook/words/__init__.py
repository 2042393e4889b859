"""Says in plain English what each article of a rulebook means, computed from its values."""
