"""Sheets for the bench: a plan turned into scenes and pages; nothing is computed here."""
