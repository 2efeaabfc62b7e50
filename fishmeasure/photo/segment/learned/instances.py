"""Votes of cells to single fish: which cells mean the same snout and fork."""

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from fishmeasure.base.arrays import BoolArray, FloatArray
from fishmeasure.photo.segment.learned.networks import DetectorOutput, Floats

_MIN_PROBABILITY = 0.35
_MIN_AREA_SHARE = 0.02
"""Of the squared length; whole fish have 0.1 to 0.4, eels 0.06."""
_MAX_DISAGREEMENT = 0.09
"""Votes this share of the length apart still mean the same fish. Fish side by side
have ends about 0.2 apart, their depth; of 0.06 to 0.13, 0.08 to 0.10 found most fish
in 180 drawn scenes of touching, piled and parallel fish."""
_MIN_CELLS = 3


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Instance:
    """One fish as voted for: its ends in pixels of the network's picture.

    ``rows``, ``columns`` are the cells, four pixels wide, that voted for it.
    """

    snout: FloatArray
    fork: FloatArray
    rows: NDArray[np.intp]
    columns: NDArray[np.intp]

    @property
    def length_px(self) -> float:
        """From snout to fork, straight."""
        return float(np.hypot(*(self.fork - self.snout)))


@dataclass(slots=True)
class _Cluster:
    ends: Floats  # (4,)
    members: NDArray[np.intp]

    @property
    def length(self) -> float:
        return float(np.hypot(self.ends[2] - self.ends[0], self.ends[3] - self.ends[1]))


def fish_like(output: DetectorOutput) -> BoolArray:
    """Return (rows / 4, columns / 4) where the network sees fish.

    Of a cell in a small fish about a half is fish, or less.
    """
    quarter = cv2.resize(
        output.cover, output.votes.shape[:0:-1], interpolation=cv2.INTER_AREA
    )
    return np.asarray(quarter > _MIN_PROBABILITY)


def find_instances(output: DetectorOutput) -> tuple[Instance, ...]:
    """Return the fish, those with most votes first."""
    rows, columns = np.nonzero(fish_like(output))
    if len(rows) < _MIN_CELLS:
        return ()
    votes = output.votes[:, rows, columns].T
    doubt = output.spread[:, rows, columns].sum(axis=0)
    clusters = _merge(_cluster(votes, doubt), votes, doubt)
    return tuple(
        Instance(
            snout=cluster.ends[:2].astype(float),
            fork=cluster.ends[2:].astype(float),
            rows=rows[cluster.members],
            columns=columns[cluster.members],
        )
        for cluster in sorted(clusters, key=lambda one: -len(one.members))
    )


def _distance(votes: Floats, ends: Floats) -> Floats:
    """Return how far each vote is from a fish's ends, the worse of the two."""
    away = votes - ends
    snout = np.hypot(away[:, 0], away[:, 1])
    fork = np.hypot(away[:, 2], away[:, 3])
    return np.asarray(np.maximum(snout, fork), np.float32)


def _cluster(votes: Floats, doubt: Floats) -> list[_Cluster]:
    """Take the surest cell, gather those that agree, and so on."""
    free = np.ones(len(votes), dtype=bool)
    order = np.argsort(doubt, kind="stable")
    weight = 1.0 / (doubt + 1.0)
    clusters: list[_Cluster] = []
    for seed in order:
        if not free[seed]:
            continue
        ends = votes[seed].copy()
        members = np.empty(0, dtype=np.intp)
        for _ in range(4):
            length = np.hypot(ends[2] - ends[0], ends[3] - ends[1])
            near = free & (
                _distance(votes, ends) < max(4.0, _MAX_DISAGREEMENT * length)
            )
            members = np.flatnonzero(near)
            if len(members) < 3:
                break
            ends = np.average(votes[members], axis=0, weights=weight[members])
            ends = ends.astype(np.float32)
        free[seed] = False
        free[members] = False
        enough = max(_MIN_CELLS, _MIN_AREA_SHARE * length**2 / 16)
        if len(members) >= enough:
            clusters.append(_Cluster(ends=ends, members=members))
    return clusters


def _merge(clusters: list[_Cluster], votes: Floats, doubt: Floats) -> list[_Cluster]:
    """Join clusters that mean the same fish, head for tail included."""
    clusters = sorted(clusters, key=lambda c: -len(c.members))
    kept: list[_Cluster] = []
    weight = 1.0 / (doubt + 1.0)
    for one in clusters:
        for other in kept:
            length = max(one.length, other.length, 1.0)
            same = float(_distance(one.ends[None], other.ends)[0])
            turned = float(_distance(one.ends[None][:, [2, 3, 0, 1]], other.ends)[0])
            if min(same, turned * 1.3) < 1.25 * _MAX_DISAGREEMENT * length:
                if same <= turned:
                    other.members = np.concatenate([other.members, one.members])
                    ends = np.average(
                        votes[other.members], axis=0, weights=weight[other.members]
                    )
                    other.ends = ends.astype(np.float32)
                break
        else:
            kept.append(one)
    return kept
