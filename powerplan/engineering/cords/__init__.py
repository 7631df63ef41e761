"""Where cords may lie, the shortest way, and the length that needs."""
