"""The bench sheet: what to do in which order, with the numbers, as one page of HTML."""
