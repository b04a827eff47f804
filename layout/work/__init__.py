"""Rules that every craft is held to: what calls for a caution, told to no craft in particular."""
