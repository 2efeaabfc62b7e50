"""Several photos of one net: which of them count, and whether they agree with it."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from fishmeasure.base.flags import Problem
from fishmeasure.estimation.nets import TUB_DIVISION_G, NetWeighing

if TYPE_CHECKING:
    from fishmeasure.photo.measurement import PhotoMeasurement


def best_photos(
    photos: Sequence["PhotoMeasurement"], net: NetWeighing
) -> list["PhotoMeasurement"]:
    """Return the photos of which the fish are joined, so that no fish counts twice.

    All photos of a tub show the same fish, which have swum elsewhere between them; so
    do photos in the air that together show more whole fish than the net has. Of these
    the one with most usable fish counts, of several such the one whose lengths are the
    surest.
    """
    whole = [len(photo.complete_fish) for photo in photos]
    same = net.in_water or sum(whole) > net.fish_count + 3.0 * net.count_sd
    if not same or len(photos) < 2:
        return list(photos)
    return [max(photos, key=lambda one: (len(one.complete_fish), -_error(one)))]


def _error(photo: "PhotoMeasurement") -> float:
    fish = photo.complete_fish
    if not fish:
        return 1.0
    return sum(one.fork_length_se_mm / one.fork_length_mm for one in fish) / len(fish)


def doubts_of_net(
    photos: Sequence["PhotoMeasurement"], net: NetWeighing
) -> list[Problem]:
    """Return what is asked of a net in a tub, and of a count that photos contradict.

    Of the photos of a tub each shows the whole net, and the clearest one, with the
    narrowest interval, is asked. A photo in the air may show a part of it.
    """
    doubts = []
    if net.in_water and net.weighed and net.scale_division_g is None:
        doubts.append(
            Problem.of("scale-division", net=net.label, division_g=TUB_DIVISION_G)
        )
    counts = [one.fish_count for one in photos if one.fish_count is not None]
    if not counts:
        return doubts
    clearest = min(counts, key=lambda one: (one.high - one.low) / max(one.value, 1))
    slack = 3.0 * net.count_sd
    more = clearest.low > net.fish_count + slack
    fewer = net.in_water and clearest.high < net.fish_count - slack
    if more or fewer:
        doubts.append(
            Problem.of(
                "count-unlike-photo",
                net=net.label,
                entered=net.fish_count,
                seen=clearest.value,
                low=clearest.low,
                high=clearest.high,
            )
        )
    return doubts
