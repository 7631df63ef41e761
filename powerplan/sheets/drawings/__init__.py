"""Drawings of a plan: floor boxes, cords, circuits; each a view for one scale."""
