"""What every picture is composed with: a view of what is drawn, measures, words that keep apart."""
