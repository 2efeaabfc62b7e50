"""Votes of cells to single fish: which cells mean the same snout and fork."""

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from fishmeasure.arrays import FloatArray
from fishmeasure.segment.learned.run import Answer, Floats

_SURE = 0.5
_SMALLEST_AREA_SHARE = 0.02
"""Of the squared length; whole fish have 0.1 to 0.4, eels 0.06."""
_AGREE = 0.09
"""Votes this share of the length apart still mean the same fish. Fish side by side
have ends about 0.2 apart, their depth; of 0.06 to 0.13, 0.08 to 0.10 found most fish
in 180 drawn scenes of touching, piled and parallel fish."""
_JOIN = 0.3
_LEAST_CELLS = 10


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Instance:
    """One fish as voted for; pixels are those of the network's picture.

    ``share`` (rows / 2, columns / 2) is the probability of this fish.
    """

    snout: FloatArray
    fork: FloatArray
    share: Floats
    cells: NDArray[np.bool_]
    vote_spread: float

    @property
    def length(self) -> float:
        """Straight distance of the ends."""
        return float(np.hypot(*(self.fork - self.snout)))


@dataclass(slots=True)
class _Cluster:
    ends: Floats  # (4,)
    members: NDArray[np.intp]

    @property
    def length(self) -> float:
        return float(np.hypot(self.ends[2] - self.ends[0], self.ends[3] - self.ends[1]))


def find_instances(answer: Answer) -> tuple[Instance, ...]:
    """Return the fish, largest first."""
    size = answer.votes.shape[:0:-1]
    quarter = np.asarray(
        cv2.resize(answer.cover, size, interpolation=cv2.INTER_AREA), np.float32
    )
    rows, columns = np.nonzero(quarter > _SURE)
    if len(rows) < _LEAST_CELLS:
        return ()
    votes = answer.votes[:, rows, columns].T
    doubt = answer.spread[:, rows, columns].sum(axis=0)
    clusters = _merge(_cluster(votes, doubt), votes, doubt)
    if not clusters:
        return ()
    label = _label_cells(clusters, answer, quarter)
    return _instances(clusters, label, answer)


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
            near = free & (_distance(votes, ends) < max(4.0, _AGREE * length))
            members = np.flatnonzero(near)
            if len(members) < 3:
                break
            ends = np.average(votes[members], axis=0, weights=weight[members])
            ends = ends.astype(np.float32)
        free[seed] = False
        free[members] = False
        enough = max(_LEAST_CELLS, _SMALLEST_AREA_SHARE * length**2 / 16)
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
            if min(same, turned * 1.3) < 1.25 * _AGREE * length:
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


def _label_cells(
    clusters: list[_Cluster], answer: Answer, quarter: Floats
) -> NDArray[np.int32]:
    """Return for each quarter cell the fish it votes for, -1 for none."""
    flat = answer.votes.reshape(4, -1).T
    cost = np.stack(
        [
            np.minimum(_distance(flat, c.ends), 1e6) / max(c.length, 8.0)
            for c in clusters
        ]
    )
    label = np.argmin(cost, axis=0).astype(np.int32)
    label[cost.min(axis=0) > _JOIN] = -1
    label[quarter.ravel() < 0.15] = -1
    shaped: NDArray[np.int32] = label.reshape(quarter.shape)
    return shaped


def _instances(
    clusters: list[_Cluster], label: NDArray[np.int32], answer: Answer
) -> tuple[Instance, ...]:
    size = answer.cover.shape[::-1]
    found = []
    soft = [
        cv2.GaussianBlur((label == number).astype(np.float32), (0, 0), 0.8)
        for number in range(len(clusters))
    ]
    large = np.stack(
        [cv2.resize(one, size, interpolation=cv2.INTER_LINEAR) for one in soft]
    )
    best = large.max(axis=0)
    for number, cluster in enumerate(clusters):
        mine = (large[number] >= best) & (large[number] > 0.2)
        # the cover alone draws the edge to the ground; let the label end later
        grown = cv2.dilate(mine.astype(np.uint8), np.ones((5, 5), np.uint8)) > 0
        others = (best > 0.2) & ~mine
        share = np.where(grown & ~others, answer.cover, 0).astype(np.float32)
        cells = label == number
        if cells.sum() < _LEAST_CELLS:
            continue
        away = _distance(answer.votes[:, cells].T, cluster.ends)
        found.append(
            Instance(
                snout=cluster.ends[:2].astype(float),
                fork=cluster.ends[2:].astype(float),
                share=share,
                cells=cells,
                vote_spread=float(np.median(away)) / max(cluster.length, 1.0),
            )
        )
    return tuple(sorted(found, key=lambda one: -float(one.cells.sum())))
