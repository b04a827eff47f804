"""The best top that the sound wood can give: the wish, the search, one file a family."""
