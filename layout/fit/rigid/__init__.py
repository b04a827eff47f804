"""The maker's own outline at its own size: where it lies with the most clearance, or nowhere."""
