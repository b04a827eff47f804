"""What is left of the panel, what it is good for, and proof that nothing is lost."""
