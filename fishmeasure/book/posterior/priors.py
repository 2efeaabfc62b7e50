"""What is taken as likely before any entry is read, each with its source.

"Figures file" is the project's shelf of published figures (topic "sampling").
"""

import math
from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumptions:
    """Errors that entries do not state, and losses that nobody sees.

    Attributes
    ----------
    count_sd_fraction
        Of a grower's own count; common practice, no source.
    stocked_count_sd_fraction
        Of a count at stocking, mostly the supplier's. Computed: ten hatchery lots at
        their first inventory were 11.5 % below to 10.3 % above the book (Wyoming Game
        and Fish, 1982, one station; seen). The range of ten normal figures is 3.08 of
        their standard deviations, so sd 7.1 %; less the inventory's own 3 % in squares.
    bulk_weight_sd_fraction
        Scale and water of a bulk weighing; common practice, no source.
    stocked_weight_sd_fraction, moved_weight_sd_fraction
        Of a mean weight that is stated without its error; common practice, no source.
    unseen_loss_per_month
        Median share of the fish that go unseen in 30 days (dead and eaten, taken by
        birds, escaped); common practice, no source. Each unit has its own.
    taken_size_sd_fraction
        How far the mean weight of a few harvested or sold fish lies from that of all:
        the larger are taken first, or those that come to hand. Common practice, no
        source.
    netting_sd_fraction
        How far the mean weight of netted fish lies from that of all, in every sample of
        a stock alike; tanks and raceways, common practice, no source.
    pond_netting_sd_fraction
        The same of one sample of a pond. Computed: three pairs of first and second
        seine hauls differed by -40, +75 and 0 % (Arkansas catfish verification 2004,
        310 to 805 fish a haul; seen), sd of ln 0.31 a haul; four hauls make a sample.
    drip_sd_fraction
        Water weighed with the fish, beyond what a sample takes off; no figure was
        found, common practice.
    """

    count_sd_fraction: float = 0.03
    stocked_count_sd_fraction: float = 0.064
    bulk_weight_sd_fraction: float = 0.01
    stocked_weight_sd_fraction: float = 0.10
    moved_weight_sd_fraction: float = 0.05
    unseen_loss_per_month: float = 0.006
    taken_size_sd_fraction: float = 0.10
    netting_sd_fraction: float = 0.03
    pond_netting_sd_fraction: float = 0.15
    drip_sd_fraction: float = 0.01


# With this sd of its ln the rate is 0.1 to 3.7 % a month in nine of ten units.
# Stand-in, from losses to birds at trout hatcheries (abstracts seen): 0.6 and 7.0 % of
# a year's fish by watching, 5 and 13 % by what managers of state and private hatcheries
# say (Pitt & Conover 1996, J Wildl Manage 60), so 0.05 to 1.1 % a month; of five others
# next to nothing at two, 9 to 39 % in a summer at three (Glahn, Tomsa & Preusser 1999,
# N Am J Aquac 61). Their median is near the one above, their spread is even wider.
UNSEEN_LN_SD: Final = 1.1
# CV of weight of unsorted fish: 0.257 and 0.206 and 0.300 (Rasmussen & Ostenfeld),
# 0.25, 0.29, 0.43 (figures file): geometric mean 0.28, sd of ln 0.25. Computed.
USUAL_CV: Final = 0.28
USUAL_CV_LN_SD: Final = 0.25
# Sorted fish: 0.128 (Janampa-Sarmiento 2020); that it is one figure, the sd allows for.
SORTED_CV: Final = 0.128
SORTED_CV_LN_SD: Final = 0.35
# What ln CV gains with ln of the mean weight as fish grow. Fish that share a thermal
# growth coefficient keep the spread of their cube roots, and CV falls as the cube root
# of weight rises: -1/3; fish that share a specific growth rate keep their CV: 0. Midway
# is taken, and an sd that holds both and the CV rising. Computed from unsorted
# salmonids of the figures file (40 g 0.43, 58 g 0.29, 145 g 0.257 and 0.206, 375 g
# 0.25): -0.23, standard error 0.12, between stocks; of one followed over a season none
# was found.
CV_BY_LN_WEIGHT: Final = -1.0 / 6.0
CV_BY_LN_WEIGHT_SD: Final = 0.2
# How far ln CV strays in a month besides: 0.257 to 0.300 where the ration was halved
# for a trial (Rasmussen & Ostenfeld), ln ratio 0.15 over about two months. Stand-in.
CV_DRIFT: Final = 0.1
# How far ln of the weight at a length strays in a month, beyond samples' errors, as
# fish fatten and thin; common practice, no source.
LEVEL_DRIFT: Final = 0.03
# Between farms, sacks and seasons, in one period of feeding: what is eaten of what is
# given, and how it is used. Common practice, no source.
FEED_PERIOD_SD: Final = 0.12
# Of dividing the feed of a unit among its cohorts by their weights and temperatures.
FEED_SHARE_SD: Final = 0.30
# Fasted fish use 1 / 1.75 of what the species' respiration equation has (median of
# measured resting trout, ``husbandry.oxygen``); 13.56 kJ per g of oxygen (Elliott &
# Davison 1975; seen in an abstract); digestible energy of dry feed 16 MJ/kg, memory.
RESTING_SHARE: Final = 1.0 / 1.75
KJ_PER_G_OXYGEN: Final = 13.56
FEED_KJ_PER_KG: Final = 16_000.0
# The species' feed conversion is taken as that of fish of this weight at its optimum.
CONVERSION_AT_G: Final = 150.0
# A count that nothing explains: the fish are then as likely any number near it.
BREAK_LN_SD: Final = 1.0
# Counts this many standard deviations from all else are such.
SURPRISE_SD: Final = 3.0
# Feed this far from what all else says the fish ate is left out, and told: nearer than
# a count, as feed is the weaker witness. Common practice, no source.
FAR_FEED_SD: Final = 2.5
# Error of the feed that keeps fish as they are, as a share; common practice, no source.
KEEP_SD: Final = 0.3
# Meals of less than this share of what keeps the fish as they are go on for weeks in no
# farm; common practice, no source.
LEAST_OF_KEEP: Final = 0.5
# Any entry this far from all else is odd, and told; common practice, no source.
ODD_SD: Final = 2.0
DAYS_PER_MONTH: Final = 30.0


def months_root(days: float) -> float:
    """Return the root of the months, by which what strays strays."""
    return math.sqrt(max(0.0, days) / DAYS_PER_MONTH)
