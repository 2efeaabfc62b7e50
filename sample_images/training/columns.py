"""What the columns of the fish table and of the ends' table mean."""

SNOUT, HIND = 0, 2  # x, y each, photo pixels; a pixel's middle is a whole number
SNOUT_SEEN, HIND_SEEN = 4, 5
MIDLINE_SEEN = 6  # share
LENGTH = 7  # along the midline from end to end, pixels
USED = 8
POSTURE = 9  # SIDE or UPRIGHT
RAISED = 10  # more than touches other fish: it lies on them
SNOUT_SHADOW, HIND_SHADOW = 11, 12  # the ground just beyond lies in a cast shadow
IN_WATER = 13
HIND_KIND = 14  # FORKED, ROUND or TIP
AREA_SEEN = 15  # share of the whole fish's area
FISH_COLUMNS = 16

SIDE, UPRIGHT = 0, 1
FORKED, ROUND, TIP = 0, 1, 2
"""The hind end: a fork, the middle of a round or square tail's edge, or the tip of
the tail of a fish seen from above."""

END_KIND = 2  # 0 snout, 1 fork or hind edge, 2 tail tip of an upright fish
END_OUT = 3  # x, y of a unit vector outward along the body
END_SEEN, END_SHADOW, END_FISH_LENGTH, END_USED = 5, 6, 7, 8
END_OPACITY = 9  # of what is there: tails from 0.3
END_COLUMNS = 10
