"""The wood as every search sees it: edges as arrays, depths, round holes."""
