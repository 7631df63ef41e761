"""Supplies and outlet units on the floor: where they may lie, and the low voltage behind them."""
