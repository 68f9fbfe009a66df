"""Points and rings in the plane, for the checks that are scripts: shares no code with the program."""


def winding(point, ring):
    """Twice the signed crossings of a ray: not 0 inside."""
    x, y = point
    turns = 0
    for (ax, ay), (bx, by) in zip(ring, ring[1:] + ring[:1]):
        side = (bx - ax) * (y - ay) - (by - ay) * (x - ax)
        if ay <= y < by and side > 0:
            turns += 1
        elif by <= y < ay and side < 0:
            turns -= 1
    return turns
