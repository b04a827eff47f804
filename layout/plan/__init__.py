"""What the maker wrote, and everything that was worked out from it."""
