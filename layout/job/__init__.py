"""What the maker wrote (`Job`) and everything worked out from it (`Plan`)."""
