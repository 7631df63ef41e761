"""How far it is from a straight front to what stands before it, all along that front."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from powerplan.judging.convex import Convex, Segment
from powerplan.judging.standing import Pose
from powerplan.model.lengths import MICROMETER_M

_TOUCHES_M = 2 * MICROMETER_M


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Part of a front, and how far it is to the first thing at both of its ends. [m]"""

    left_m: float
    right_m: float
    at_left_m: float
    at_right_m: float

    def floor(self, pose: Pose, way: float) -> Convex | None:
        """Return the floor between the front and what stands there. [m]"""
        return pose.shape(
            (
                (self.left_m, 0.0),
                (self.right_m, 0.0),
                (self.right_m, way * self.at_right_m),
                (self.left_m, way * self.at_left_m),
            )
        )


def look(
    pose: Pose, left_m: float, right_m: float, stops: Iterable[Segment], *, back: bool
) -> tuple[Stretch, ...]:
    """Return how far it is from a front, ahead or back, to the first of some straight faces.

    Parameters
    ----------
    pose : Pose
        The front lies along this frame's own line of 0. [m, rad]
    left_m, right_m : float
        From where to where along it. [m]
    stops : iterable of Segment
        What stands in the room, face by face. [m]
    back : bool
        Look back instead of ahead.

    Returns
    -------
    tuple of Stretch
        From left to right; infinitely far where nothing stands. [m]
    """
    sign = -1.0 if back else 1.0
    faces: list[Segment] = []
    for start, end in stops:
        (u, v), (to_u, to_v) = pose.back(start), pose.back(end)
        face = ((u, sign * v), (to_u, sign * to_v))
        faces.append(face if u <= to_u else (face[1], face[0]))
    marks = {left_m, right_m}
    marks |= {u for face in faces for u, _ in face if left_m < u < right_m}
    marks |= {u for u in _crossings(faces) if left_m < u < right_m}
    found: list[Stretch] = []
    for start_m, end_m in pairwise(sorted(marks)):
        if end_m - start_m < MICROMETER_M:
            continue
        nearest = _nearest(faces, (start_m + end_m) / 2)
        ends = (
            (math.inf, math.inf)
            if nearest is None
            else (max(0.0, _at(nearest, start_m)), max(0.0, _at(nearest, end_m)))
        )
        found.append(Stretch(left_m=start_m, right_m=end_m, at_left_m=ends[0], at_right_m=ends[1]))
    return tuple(found)


def least_m(stretches: Iterable[Stretch]) -> float:
    """Return the least distance all along; infinite where nothing stands. [m]"""
    return min((min(s.at_left_m, s.at_right_m) for s in stretches), default=math.inf)


def greatest_m(stretches: Iterable[Stretch]) -> float:
    """Return the greatest distance all along. [m]"""
    return max((max(s.at_left_m, s.at_right_m) for s in stretches), default=math.inf)


def _nearest(faces: list[Segment], at_m: float) -> Segment | None:
    before = [face for face in faces if face[0][0] < at_m < face[1][0]]
    reached = [(_at(face, at_m), face) for face in before]
    return min(((m, face) for m, face in reached if m > -_TOUCHES_M), default=(0.0, None))[1]


def _at(face: Segment, at_m: float) -> float:
    (u, v), (to_u, to_v) = face
    return v + (at_m - u) * (to_v - v) / (to_u - u)


def _crossings(faces: list[Segment]) -> Iterable[float]:
    for n, ((u, v), (to_u, to_v)) in enumerate(faces):
        for (a, b), (to_a, to_b) in faces[n + 1 :]:
            turn = (to_u - u) * (to_b - b) - (to_v - v) * (to_a - a)
            if abs(turn) > 1e-12:
                share = ((a - u) * (to_b - b) - (b - v) * (to_a - a)) / turn
                if 0.0 <= share <= 1.0:
                    yield u + share * (to_u - u)
