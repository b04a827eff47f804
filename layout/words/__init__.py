"""The only place of sentences: facts of the crafts are told here, for sheets and terminal."""
