"""Chairs in the room: poses, zones, covered floor and whether the rows fit."""
