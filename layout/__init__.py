"""The geometry of a new top on an old panel; each folder is named for what the maker does."""
