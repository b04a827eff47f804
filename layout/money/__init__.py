"""What a piece costs, what to ask for it, and what an hour then earns: decimals, line by line."""
