"""Loads, plugs, wires and voltage drop."""
