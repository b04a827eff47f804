"""The printed template: portions, paper, tiles and check lines, as plain values."""
